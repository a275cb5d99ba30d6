import type { Clip } from "../../sound/audio/clip.js";
import { fftSizeFor } from "../../sound/dsp/analysisFft.js";
import { UserError } from "../../text/userError.js";
import { type CaptureFacts, factsOf } from "./captureFacts.js";
import { notesOn } from "./captureNotes.js";
import { driftPpm, settledClock } from "./clock.js";
import { reasonsAgainst } from "./judge.js";
import { locateSweeps, noTone } from "./locate.js";
import { cutOut, pieceOf } from "./piece.js";
import { recordedSides, type Side } from "./recordedSides.js";
import { referenceSpectrum } from "./reference.js";
import { sweepsOf } from "./sideSweeps.js";
import { SweepInverse } from "./sweepInverse.js";
import { toneLayout } from "./toneLayout.js";
import { type ToneSettings, toneSettingsOf } from "./toneSettings.js";

export interface CaptureOptions {
  /** The side of a stereo recording to measure; both when left out. */
  readonly channel?: "left" | "right";
  /** The side that recorded the tone by a plain cable at the same time: latency and colour are then told against it. */
  readonly referenceChannel?: "left" | "right";
}

/** What a recording of the tone says of the unit in the loop. */
export interface CaptureResponse {
  /** The linear response, at the unit's own gain; drops into a rig as `model: response`. */
  readonly response: Clip;
  /** Where the tone measured it. Beyond, it goes on as at the band's edges. */
  readonly bandHz: readonly [number, number];
  /** How much faster the recorder ran than the player, parts per million; taken out of the response. */
  readonly driftPpm: number;
  /** How late the response's frame 0 is against `latencyAgainst`: the latency to go with the file. Tone's clock. */
  readonly startFrames: number;
  readonly latencyAgainst: "reference" | "start of the recording";
  /** One a channel of the response. */
  readonly channels: readonly CaptureFacts[];
  /** Whether a response can stand for the unit; `statements` say why not. */
  readonly standsForUnit: boolean;
  readonly statements: readonly string[];
}

/** The first mark must be like what the response makes of it, unless the sweeps alone leave no doubt. */
const leastLikeness = 0.25;
const surelyTheTone = 50;

/**
 * The response of a unit from a recording of the tone of `makeTone`.
 *
 * Finds the sweeps wherever the recording starts, takes the drift between player and recorder out, divides by the
 * sweep, parts the linear response from the orders of distortion, averages the repeats and trims at the noise floor.
 *
 * @param recording mono or stereo, at the tone's rate; a stereo one gives a stereo response
 * @param tone      the settings that the tone was made with
 * @throws UserError when the recording cannot be used: another rate, silent, dead side, clipped, no tone, cut off
 * Source: Farina 2000, AES 108th Convention, preprint 5093; ISO 18233:2006 Annex B; decay: ISO 3382-1:2009.
 */
export function responseOf(
  recording: Clip,
  tone: Partial<ToneSettings> = {},
  options: CaptureOptions = {},
): CaptureResponse {
  const layout = toneLayout(toneSettingsOf(tone));
  const { rateHz } = layout.settings;
  const { units, reference } = sidesFor(recording, rateHz, options);
  const guide = reference ?? units.reduce((a, b) => (energyOf(b) > energyOf(a) ? b : a));
  const lead = layout.gapFrames >> 1;
  const inverse = new SweepInverse(layout, fftSizeFor(lead + layout.sweepFrames + layout.gapFrames), lead);
  const { arrivals, prominence } = locateSweeps(guide.samples, layout);
  const clock = settledClock(guide.samples, inverse, arrivals);
  const base = reference && referenceSpectrum(reference, clock, inverse);
  const sides = units.map((unit) => sweepsOf(unit, clock, inverse, base));
  const likeness = Math.max(...sides.map((side) => side.levels.likeness));
  if (likeness < leastLikeness && prominence < surelyTheTone) throw noTone();
  const first = Math.min(...sides.map((side) => side.onset.frames));
  const pieces = sides.map((side) => pieceOf(side, first, inverse));
  const earliest = reference ? -Math.floor(Math.max(0, first)) : Number.NEGATIVE_INFINITY;
  const from = Math.max(earliest, Math.min(...pieces.map((piece) => piece.from)));
  const to = Math.max(...pieces.map((piece) => piece.to));
  const onClock = (frames: number) => (reference ? frames : clock.origin / clock.stretch + frames);
  const channels = sides.map((side, n) =>
    factsOf(
      side,
      pieces[n],
      { first, from, latencyFrames: onClock(side.onset.frames), absolute: reference !== null },
      inverse,
    ),
  );
  const against = channels.flatMap(reasonsAgainst);
  return {
    response: { rateHz, channels: pieces.map((piece) => cutOut(piece.filled, from, to, rateHz)) },
    bandHz: layout.bandHz,
    driftPpm: driftPpm(clock),
    startFrames: onClock(first + from),
    latencyAgainst: reference ? "reference" : "start of the recording",
    channels,
    standsForUnit: against.length === 0,
    statements: [...new Set([...against, ...notesOn(sides, pieces, units, channels)])],
  };
}

/** The sides to measure and the one that holds the plain cable. */
function sidesFor(
  recording: Clip,
  rateHz: number,
  { channel, referenceChannel }: CaptureOptions,
): { units: Side[]; reference: Side | null } {
  if (recording.rateHz !== rateHz) {
    throw new UserError(
      `the recording is at ${recording.rateHz} Hz, the tone at ${rateHz} Hz. Record at the tone's rate; converting would hide the clock.`,
    );
  }
  if (referenceChannel && recording.channels.length !== 2) {
    throw new UserError(
      "a reference needs a stereo recording: the unit on one side, a plain cable on the other.",
    );
  }
  if (referenceChannel && referenceChannel === channel) {
    throw new UserError(`the ${channel} side cannot be both the unit and its reference. Name the other one.`);
  }
  const sides = recordedSides(recording, "the recording", referenceChannel ? undefined : channel);
  const reference = sides.find((side) => side.name === referenceChannel) ?? null;
  return { units: sides.filter((side) => side !== reference), reference };
}

const energyOf = ({ samples }: { samples: Float32Array }): number =>
  samples.reduce((sum, x) => sum + x * x, 0);
