import type { Clip } from "../audio/clip.js";
import { fftSizeFor } from "../dsp/analysisFft.js";
import { framesToMs, powerToDb } from "../dsp/units.js";
import { decayTimes } from "../measure/decay.js";
import { UserError } from "../userError.js";
import { advanced, settleBeyondBand, withEdgeGains } from "./beyondBand.js";
import { driftPpm, settledClock } from "./clock.js";
import { type DryLeak, dryLeakOf, invertsAtStart } from "./firstArrival.js";
import { type HarmonicFacts, harmonicsOf } from "./harmonics.js";
import { isDriven, reasonsAgainst } from "./judge.js";
import type { LevelCheck } from "./levelCheck.js";
import { locateSweeps, noTone } from "./locate.js";
import { type Passband, passbandOf } from "./passband.js";
import { flatTops, recordedSides, type Side, type SideName } from "./recordedSides.js";
import { referenceSpectrum } from "./reference.js";
import { type SideSweeps, sweepsOf } from "./sideSweeps.js";
import { signalOf } from "./spectrum.js";
import { SweepInverse } from "./sweepInverse.js";
import { type TimeVariance, timeVarianceOf } from "./timeVariance.js";
import { type ToneLayout, toneLayout } from "./toneLayout.js";
import { type ToneSettings, toneSettingsOf } from "./toneSettings.js";
import { headStartOf, tailEndOf } from "./trim.js";

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
  /** How late the response's frame 0 is against `latencyAgainst`: the latency to go with the file. */
  readonly startFrames: number;
  readonly latencyAgainst: "reference" | "start of the recording";
  /** One a channel of the response. */
  readonly channels: readonly CaptureFacts[];
  /** Whether a response can stand for the unit; `statements` say why not. */
  readonly standsForUnit: boolean;
  readonly statements: readonly string[];
}

export interface CaptureFacts extends Passband {
  readonly channel: SideName;
  /** Of the first arrival; null without a reference when the recorder did not start with the tone. */
  readonly latencyFrames: number | null;
  readonly latencyMs: number | null;
  /** Null where the start swings as far up as down. */
  readonly invertsPolarity: boolean | null;
  readonly edtSeconds: number | null;
  readonly t20Seconds: number | null;
  readonly t30Seconds: number | null;
  /** Orders 2 to 5, at the level that the tone had in the unit. */
  readonly distortion: readonly HarmonicFacts[];
  /** All those orders by power; null when none stands over the noise. */
  readonly distortionDb: number | null;
  /** RMS of the silence ahead of the tone; null for digital silence. */
  readonly noiseFloorDbfs: number | null;
  /** Energy of the response to that of the noise in it; null without noise. */
  readonly signalToNoiseDb: number | null;
  readonly dryLeak: DryLeak | null;
  readonly timeVariance: TimeVariance | null;
  readonly levelCheck: LevelCheck;
}

/** Without a reference, an arrival later than this says when the recorder was started and nothing of the unit. */
const plausibleLatencySeconds = 0.1;
/** The first mark must be like what the response makes of it, unless the sweeps alone leave no doubt. */
const leastLikeness = 0.25;
const surelyTheTone = 50;
const fadeOutSeconds = 0.005;
/** Noise ahead of the tone that is worth a word. */
const noisyDbfs = -50;

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
  const onClock = (frames: number) => (reference ? frames : clock.origin + frames * clock.stretch);
  const channels = sides.map((side, n) =>
    factsOf(
      side,
      pieces[n],
      { first, latencyFrames: onClock(side.onset.frames), absolute: reference !== null },
      inverse,
    ),
  );
  const against = channels.flatMap(reasonsAgainst);
  return {
    response: { rateHz, channels: pieces.map((piece) => cutOut(piece.filled, from, to, rateHz)) },
    bandHz: layout.bandHz,
    driftPpm: driftPpm(clock),
    startFrames: onClock(first) + from,
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

interface Piece {
  /** Circular, settled beyond the band, the earliest side's first arrival on frame 0. */
  readonly filled: Float64Array;
  readonly from: number;
  readonly to: number;
  readonly cut: boolean;
}

function pieceOf(side: SideSweeps, first: number, inverse: SweepInverse): Piece {
  const { layout, fft } = inverse;
  const { rateHz, repeats } = layout.settings;
  const known = advanced(side.spectrum, first);
  const rough = withEdgeGains(known, inverse);
  const noisePower = side.noise.responsePower / repeats;
  const roughly = signalOf({ re: rough.re.slice(), im: rough.im.slice() }, fft);
  const { to, cut } = tailEndOf(roughly, measuredFrames(layout, first), noisePower, rateHz);
  const filled = signalOf(settleBeyondBand(known, rough, inverse, to), fft);
  return { filled, from: headStartOf(filled, to), to, cut };
}

/** Frames after the first arrival in which nothing but the response sounds: until the next mark. */
const measuredFrames = ({ gapFrames }: ToneLayout, first: number): number =>
  gapFrames - Math.ceil(Math.max(0, first));

/** Frames `from` to `to` of a circular response, faded out over the last 5 ms. */
function cutOut(filled: Float64Array, from: number, to: number, rateHz: number): Float32Array {
  const fade = Math.min(to - from, Math.round(fadeOutSeconds * rateHz));
  return Float32Array.from({ length: to - from }, (_, n) => {
    const left = Math.min(1, (to - from - n) / fade);
    return (
      filled[from + n < 0 ? from + n + filled.length : from + n] * (0.5 - 0.5 * Math.cos(Math.PI * left))
    );
  });
}

function factsOf(
  side: SideSweeps,
  { filled, from, to }: Piece,
  at: { first: number; latencyFrames: number; absolute: boolean },
  inverse: SweepInverse,
): CaptureFacts {
  const { layout } = inverse;
  const { rateHz, repeats } = layout.settings;
  const samples = cutOut(filled, from, to, rateHz);
  const onsetFrame = Math.round(side.onset.frames - at.first) - from;
  const whole = cutOut(filled, from, measuredFrames(layout, at.first), rateHz);
  const { decay } = decayTimes([whole], rateHz);
  const shift = Math.round(at.first);
  const distortion = harmonicsOf(filled, side.onset.frames - at.first, to, layout, side.noise);
  const sum = distortion.reduce(
    (total, { levelDb }) => total + (levelDb === null ? 0 : 10 ** (levelDb / 10)),
    0,
  );
  const noise = (side.noise.responsePower / repeats) * samples.length;
  const seconds = at.latencyFrames / rateHz;
  const known = at.absolute || (seconds > -0.001 && seconds < plausibleLatencySeconds);
  return {
    channel: side.name,
    ...passbandOf(samples, rateHz, layout.bandHz),
    latencyFrames: known ? at.latencyFrames : null,
    latencyMs: known ? framesToMs(at.latencyFrames, rateHz) : null,
    invertsPolarity: invertsAtStart(samples, onsetFrame, rateHz),
    edtSeconds: decay?.edtSeconds ?? null,
    t20Seconds: decay?.t20Seconds ?? null,
    t30Seconds: decay?.t30Seconds ?? null,
    distortion,
    distortionDb: sum > 0 ? powerToDb(sum) : null,
    noiseFloorDbfs: side.noise.levelDbfs,
    signalToNoiseDb: noise > 0 ? powerToDb(energyOf({ samples }) / noise) : null,
    dryLeak: dryLeakOf(samples, onsetFrame, rateHz),
    timeVariance: timeVarianceOf(side, inverse, shift + from, shift + to),
    levelCheck: side.levels,
  };
}

function notesOn(
  sides: readonly SideSweeps[],
  pieces: readonly Piece[],
  units: readonly Side[],
  channels: readonly CaptureFacts[],
): string[] {
  const notes: string[] = [];
  const driven = channels.some((facts) => isDriven(facts.distortionDb));
  if (pieces.some((piece) => piece.cut) && !driven) {
    notes.push(
      "The tail still sounds where the next mark begins: the response is cut there. Make the tone with a longer gapSeconds.",
    );
  }
  for (const { samples } of units) {
    const { count, level } = flatTops(samples);
    if (count > 0) {
      notes.push(
        `The recording has ${count} flat tops at ${powerToDb(level * level).toFixed(1)} dBFS: something on the way clips. If it is not the unit itself, turn the level down and record again.`,
      );
    }
  }
  if (sides.some((side) => side.noise.levelDbfs !== null && side.noise.levelDbfs > noisyDbfs)) {
    notes.push("The recording is noisy: more repeats or a longer sweep bring the response out.");
  }
  return notes;
}

const energyOf = ({ samples }: { samples: Float32Array }): number =>
  samples.reduce((sum, x) => sum + x * x, 0);
