import { type Clip, framesOf } from "../../sound/audio/clip.js";
import { framesToMs } from "../../sound/dsp/units.js";
import { UserError } from "../../text/userError.js";
import { type Alignment, align, doubtfulConfidence } from "../capture/align.js";
import { readAt } from "../capture/fractionalRead.js";

/** How a recording stands to the take, and its sides with the delay taken out. */
export interface AlignedRecording {
  readonly alignment: Pick<
    Alignment,
    "latencyFrames" | "latencyMs" | "invertsPolarity" | "gainDb" | "confidence"
  >;
  readonly channels: readonly [left: Float32Array, right: Float32Array];
}

/** The recorder may have run for so long before the take was played. */
const mostLeadSeconds = 60;
/** An alignment looks at delays up to 2 s: the recording is tried from here, and from each so much later. */
const leadStepSeconds = 1.9;
/** Delays nearer than this to a whole frame are taken as whole, so that nothing is interpolated. */
const wholeWithin = 0.02;
const deadShare = 1e-6;

/**
 * Brings a recording of the rig in time with the take that was played, to a fraction of a frame, both sides alike.
 * Polarity and level stay as they were recorded. A mono recording counts as both sides alike.
 *
 * @param recording at the rate of the take
 * @throws UserError when it is empty, silent, clipped, dead on one side, or does not follow the take
 */
export function alignRecording(take: Clip, recording: Clip): AlignedRecording {
  refuseDeadSide(recording);
  const { alignment, lead } = bestAlignment(take, recording);
  const latencyFrames = lead + alignment.latencyFrames;
  const [left, right = left] = recording.channels.map((side) => readFrom(side, latencyFrames));
  const { invertsPolarity, gainDb, follows: confidence } = alignment;
  const latencyMs = framesToMs(latencyFrames, take.rateHz);
  return {
    alignment: { latencyFrames, latencyMs, invertsPolarity, gainDb, confidence },
    channels: [left, right],
  };
}

/** The first sure alignment, or the best there is, over start times and sides. */
function bestAlignment(take: Clip, recording: Clip): { alignment: Alignment; lead: number } {
  const { rateHz } = take;
  const step = Math.round(leadStepSeconds * rateHz);
  const lastLead = Math.min(mostLeadSeconds * rateHz, framesOf(recording) - Math.min(framesOf(take), rateHz));
  const sides =
    recording.channels.length > 1 ? ([undefined, "left", "right"] as const) : ([undefined] as const);
  let best: { alignment: Alignment; lead: number } | null = null;
  let refusal: UserError | null = null;
  for (let lead = 0; lead <= Math.max(0, lastLead); lead += step) {
    const from = { rateHz, channels: recording.channels.map((side) => side.subarray(lead)) };
    for (const channel of sides) {
      try {
        const alignment = align(take, from, { loopName: null, ...(channel ? { channel } : {}) });
        if (alignment.follows >= doubtfulConfidence) return { alignment, lead };
        if (!best || alignment.follows > best.alignment.follows) best = { alignment, lead };
      } catch (error) {
        if (!(error instanceof UserError)) throw error;
        refusal ??= error;
      }
    }
  }
  if (best) return best;
  throw refusal ?? new UserError("it is too short to be compared with the take.");
}

/** A side with `latencyFrames` taken off its start; what lay before the recording is silence. */
function readFrom(side: Float32Array, latencyFrames: number): Float32Array {
  const whole = Math.round(latencyFrames);
  const frames = Math.max(0, side.length - whole);
  if (Math.abs(latencyFrames - whole) > wholeWithin) {
    return Float32Array.from({ length: frames }, (_, n) => readAt(side, latencyFrames + n));
  }
  const out = new Float32Array(frames);
  out.set(side.subarray(Math.max(0, whole)), Math.max(0, -whole));
  return out;
}

function refuseDeadSide({ channels }: Clip): void {
  if (channels.length !== 2) return;
  const [left, right] = channels.map((side) => side.reduce((sum, x) => sum + x * x, 0));
  if (left + right === 0 || Math.min(left, right) > deadShare * Math.max(left, right)) return;
  const [dead, live] = left < right ? ["left", "right"] : ["right", "left"];
  throw new UserError(
    `its ${dead} side is dead. Check the cable of that side and record again; if the rig plays into one side only, give a mono file of the ${live}.`,
  );
}
