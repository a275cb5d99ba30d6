import { framesToMs, powerToDb } from "../../sound/dsp/units.js";
import { decayTimes } from "../../sound/measure/decay.js";
import { type DryLeak, dryLeakOf, invertsAtStart } from "./firstArrival.js";
import { type HarmonicFacts, harmonicsOf } from "./harmonics.js";
import type { LevelCheck } from "./levelCheck.js";
import { type Passband, passbandOf } from "./passband.js";
import { cutOut, measuredFrames, type ResponsePiece } from "./piece.js";
import type { SideName } from "./recordedSides.js";
import type { SideSweeps } from "./sideSweeps.js";
import type { SweepInverse } from "./sweepInverse.js";
import { type TimeVariance, timeVarianceOf } from "./timeVariance.js";

/** What the response of one side says of the unit. */
export interface CaptureFacts extends Passband {
  readonly channel: SideName;
  /** Of the first arrival, on the tone's clock; null without a reference when the recorder did not start with the tone. */
  readonly latencyFrames: number | null;
  readonly latencyMs: number | null;
  /** Where the first arrival stands in the response, frames; startFrames and this make the latency. */
  readonly onsetFrames: number;
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

/** Reads the facts of one side off its response. */
export function factsOf(
  side: SideSweeps,
  { filled, from, to }: ResponsePiece,
  at: { first: number; from: number; latencyFrames: number; absolute: boolean },
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
    onsetFrames: side.onset.frames - at.first - at.from,
    invertsPolarity: invertsAtStart(samples, onsetFrame, rateHz),
    edtSeconds: decay?.edtSeconds ?? null,
    t20Seconds: decay?.t20Seconds ?? null,
    t30Seconds: decay?.t30Seconds ?? null,
    distortion,
    distortionDb: sum > 0 ? powerToDb(sum) : null,
    noiseFloorDbfs: side.noise.levelDbfs,
    signalToNoiseDb: noise > 0 ? powerToDb(samples.reduce((total, x) => total + x * x, 0) / noise) : null,
    dryLeak: dryLeakOf(samples, onsetFrame, rateHz, layout.bandHz),
    timeVariance: timeVarianceOf(side, inverse, shift + from, shift + to),
    levelCheck: side.levels,
  };
}
