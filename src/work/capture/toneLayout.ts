import { dbToGain } from "../../sound/dsp/units.js";
import type { ToneSettings } from "./toneSettings.js";

/** Where everything in the test tone stands, in frames from its start. */
export interface ToneLayout {
  readonly settings: ToneSettings;
  /** L of the sweep's formula, seconds; fromHz * L is whole, so that the harmonics keep their phases. */
  readonly timeConstantSeconds: number;
  readonly sweepFrames: number;
  readonly markFrames: number;
  readonly gapFrames: number;
  /** Sync marks: one ahead of the first sweep and one after each. */
  readonly markStarts: readonly number[];
  readonly sweepStarts: readonly number[];
  /** The whole tone. */
  readonly frames: number;
  /** What is swept at full level, between the fades: where a measured response counts. */
  readonly bandHz: readonly [number, number];
}

/** Octaves over which the sweep fades in at its low end and out at its high end. */
const fadeInOctaves = 1 / 3;
const fadeOutOctaves = 1 / 24;
const markSeconds = 0.1;
/** Marks are weaker than the sweep, which shows whether the unit treats loud and soft alike. */
const markToSweepDb = -12;

/**
 * Lays the tone out: lead-in, mark, then sweep and mark by turns, a gap after each.
 *
 * The sweep is sin(2 pi f1 L (e^(t/L) - 1)), L = T / ln(f2/f1), rounded so that f1 L is whole.
 * Source: Farina 2000, AES 108th Convention, preprint 5093; the rounding: Novak, Lotton, Simon 2015, JAES 63(10).
 */
export function toneLayout(settings: ToneSettings): ToneLayout {
  const { rateHz, fromHz, toHz, lengthSeconds, repeats, leadInSeconds, gapSeconds } = settings;
  const ratio = Math.log(toHz / fromHz);
  const timeConstantSeconds = Math.max(1, Math.round((fromHz * lengthSeconds) / ratio)) / fromHz;
  const sweepFrames = Math.round(timeConstantSeconds * ratio * rateHz);
  const markFrames = Math.round(markSeconds * rateHz);
  const gapFrames = Math.round(gapSeconds * rateHz);
  const firstMark = Math.round(leadInSeconds * rateHz);
  const period = sweepFrames + markFrames + 2 * gapFrames;
  const markStarts = Array.from({ length: repeats + 1 }, (_, n) => firstMark + n * period);
  const sweepStarts = markStarts.slice(0, -1).map((start) => start + markFrames + gapFrames);
  return {
    settings,
    timeConstantSeconds,
    sweepFrames,
    markFrames,
    gapFrames,
    markStarts,
    sweepStarts,
    frames: markStarts[repeats] + markFrames + gapFrames,
    bandHz: [fromHz * 2 ** fadeInOctaves, toHz * 2 ** -fadeOutOctaves],
  };
}

/** One sweep as it is played, fades and level included, full scale 1. */
export function sweepSamples(layout: ToneLayout): Float32Array {
  const { rateHz, fromHz, levelDbfs } = layout.settings;
  const constant = layout.timeConstantSeconds;
  const peak = dbToGain(levelDbfs);
  const turns = 2 * Math.PI * fromHz * constant;
  return Float32Array.from({ length: layout.sweepFrames }, (_, n) => {
    const growth = Math.exp(n / rateHz / constant);
    return peak * bandWeight(layout, fromHz * growth) * Math.sin(turns * (growth - 1));
  });
}

/** One sync mark: a short rising chirp under a Hann window, in the middle of what the sweep covers. */
export function markSamples(layout: ToneLayout): Float32Array {
  const { rateHz, levelDbfs } = layout.settings;
  const [lowHz, highHz] = markBandHz(layout);
  const peak = dbToGain(levelDbfs + markToSweepDb);
  const seconds = layout.markFrames / rateHz;
  return Float32Array.from({ length: layout.markFrames }, (_, n) => {
    const t = n / rateHz;
    const hann = 0.5 - 0.5 * Math.cos((2 * Math.PI * n) / layout.markFrames);
    return peak * hann * Math.sin(2 * Math.PI * (lowHz * t + ((highHz - lowHz) * t * t) / (2 * seconds)));
  });
}

/** Where the marks run from and to. */
export function markBandHz({ settings: { fromHz, toHz } }: ToneLayout): readonly [number, number] {
  return fromHz <= 300 && toHz >= 1_200 ? [300, Math.min(toHz, 6_000)] : [fromHz, toHz];
}

/**
 * Level of the sweep while it passes a frequency, 0 to 1: a raised cosine over log frequency at both ends, 1 in the
 * band between, 0 outside the sweep. A measured response is faded by the same curve where its sweep was.
 */
export function bandWeight({ settings: { fromHz, toHz } }: ToneLayout, frequencyHz: number): number {
  const rise = Math.log2(frequencyHz / fromHz) / fadeInOctaves;
  const fall = Math.log2(toHz / frequencyHz) / fadeOutOctaves;
  const open = Math.max(0, Math.min(1, rise, fall));
  return 0.5 - 0.5 * Math.cos(Math.PI * open);
}
