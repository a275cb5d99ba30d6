import { type Clip, framesOf } from "../../sound/audio/clip.js";
import { gainToDb } from "../../sound/dsp/units.js";
import { UserError } from "../../text/userError.js";

export type SideName = "mono" | "left" | "right";

/** One channel of a recording, fit to be measured. */
export interface Side {
  readonly name: SideName;
  readonly samples: Float32Array;
}

/** A side this far below the other carries no signal. */
const deadDb = -60;
/** At or above this level flat tops are the recorder's; below it, the unit's or a gain after the clipping. */
const recorderFullScale = 0.98;

/**
 * The channels of a recording, each checked: mono or stereo, finite, not silent, not clipped.
 *
 * @param what how messages call it, "the recording"; null where its file's name stands ahead of them
 * @param only the side to take from a stereo recording; both when left out
 * @throws UserError saying what is wrong and what to do
 */
export function recordedSides(clip: Clip, what: string | null, only?: "left" | "right"): Side[] {
  const { channels } = clip;
  if (channels.length < 1 || channels.length > 2) {
    throw new UserError(
      about(
        what,
        `has ${channels.length} channels; one or two can be measured. Export it as mono or stereo.`,
      ),
    );
  }
  if (framesOf(clip) === 0) throw new UserError(about(what, "is empty. Choose one with sound in it."));
  const names: SideName[] = channels.length === 1 ? ["mono"] : ["left", "right"];
  const all = names.map((name, n) => ({ name, samples: channels[n], rms: rmsOf(channels[n], what) }));
  const loudest = Math.max(...all.map((side) => side.rms));
  if (loudest === 0) {
    throw new UserError(
      about(what, "holds no sound (zeros only). Check cables and inputs, and record again."),
    );
  }
  const chosen = all.length === 2 && only ? all.filter((side) => side.name === only) : all;
  const dead = chosen.find((side) => side.rms === 0 || gainToDb(side.rms / loudest) < deadDb);
  if (dead) {
    const live = dead.name === "left" ? "right" : "left";
    throw new UserError(
      about(
        what,
        `its ${dead.name} side is dead, ${gainToDb(dead.rms / loudest).toFixed(0)} dB to the ${live}. Check the cable of that side, or take the ${live} alone (--channel ${live}).`,
        ":",
      ),
    );
  }
  for (const side of chosen) refuseClipped(side, what);
  return chosen.map(({ name, samples }) => ({ name, samples }));
}

/** "the recording is clipped", or "is clipped" where a name stands ahead. */
export const about = (what: string | null, says: string, colon = ""): string =>
  what === null ? says : `${what}${colon} ${says}`;

/** @throws UserError when the recorder clipped */
function refuseClipped({ name, samples }: Side, what: string | null): void {
  const { count, level } = flatTops(samples);
  if (count > 0 && level >= recorderFullScale) {
    throw new UserError(
      about(
        what,
        `${name === "mono" ? "" : `(${name}) `}is clipped: ${count} flat tops at ${gainToDb(level).toFixed(1)} dBFS. Turn the recording level down until peaks stay under -3 dBFS, and record again.`,
      ),
    );
  }
}

/**
 * Runs of three or more equal samples at the peak with a step beside them: what clipping leaves and a sine's own
 * rounded top does not. `count` is 0 below three of them; `level` is the peak, full scale 1.
 */
export function flatTops(samples: Float32Array): { count: number; level: number } {
  let level = 0;
  for (const x of samples) level = Math.max(level, Math.abs(x));
  const near = 0.999 * level;
  let count = 0;
  for (let n = 1; n < samples.length - 1; n++) {
    if (Math.abs(samples[n]) < near || samples[n] === samples[n - 1]) continue;
    let end = n + 1;
    while (end < samples.length && samples[end] === samples[n]) end++;
    const step = Math.max(Math.abs(samples[n] - samples[n - 1]), Math.abs(samples[n] - (samples[end] ?? 0)));
    if (end - n >= 3 && step > 1e-3 * level) count++;
    n = end - 1;
  }
  return { count: count >= 3 ? count : 0, level };
}

function rmsOf(samples: Float32Array, what: string | null): number {
  let sum = 0;
  for (const x of samples) sum += x * x;
  if (!Number.isFinite(sum)) {
    throw new UserError(about(what, "holds values that are not numbers (NaN or infinite). Export it again."));
  }
  return Math.sqrt(sum / samples.length);
}
