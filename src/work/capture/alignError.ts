import { gainToDb } from "../../sound/dsp/units.js";
import type { SharedSpectra } from "./coherence.js";
import { directGain } from "./loopTone.js";
import { fitPhaseSlope } from "./phaseSlope.js";
import { emptySpectrum, type Spectrum } from "./sweepSpectrum.js";

/** From and to. */
export type Interval = readonly [from: number, to: number];

/** What is likely of a latency and a gain: where they lie in nine of ten cases. */
export interface LikelyError {
  readonly latencyFrames: Interval;
  readonly gainDb: Interval;
  /** Octaves are not passed alike: what they say of gain and latency spans the intervals. Null where they agree. */
  readonly filter: FilterFacts | null;
}
export interface FilterFacts {
  /** Octave that comes through loudest, and softest. */
  readonly loudest: { readonly hz: number; readonly gainDb: number };
  readonly softest: { readonly hz: number; readonly gainDb: number };
}

/** Student's t for 90 % either way with 9 degrees of freedom; for as many stretches as there mostly are. From memory. */
const studentT = 1.833;
/** Nothing is known better than this, whatever stretches say. */
const leastFrames = 0.005;
const leastDb = 0.01;
/** Octaves that are known to this at the least have a say. */
const knownDb = 1.5;
const knownFrames = 2;
/** Octaves whose gains are so far apart, or so many standard errors, are not passed alike. */
const filterDb = 0.15;
const filterErrors = 3;

/**
 * Intervals by the jackknife over stretches of the take: what the fit gives with each left out tells how much hangs on
 * it. A filter in the loop has no one latency and no one gain: its octaves are then fitted each by itself, and the
 * intervals span what they say, phase delay and group delay.
 *
 * @param weighted the cross-spectrum's weights at each bin over its size, as the fit used them
 * @param delayFrames the fit, from the lag at which the spectra were taken
 * Source: the jackknife, Quenouille 1956 and Tukey 1958, variance (n - 1) / n * sum of squares; from memory.
 */
export function likelyError(
  spectra: SharedSpectra,
  weights: Float64Array,
  delayFrames: number,
  rateHz: number,
): LikelyError {
  const half = spectra.size / 2;
  const whole = fitOver(spectra, weights, delayFrames, [1, half]);
  const octaves = octaveBins(spectra.size, rateHz)
    .map(({ hz, bins }) => ({ hz, ...fitOver(spectra, weights, delayFrames, bins) }))
    .filter(({ gainErrorDb, delayError }) => gainErrorDb < knownDb && delayError < knownFrames);
  const latency = around(whole.delay, studentT * whole.delayError + leastFrames);
  const gain = around(whole.gainDb, studentT * whole.gainErrorDb + leastDb);
  const filter = filterIn(octaves);
  if (filter === null) return { latencyFrames: latency, gainDb: gain, filter };
  const delays = octaves.flatMap((octave, n) => {
    const next = octaves[n + 1];
    const group = next ? [(next.hz * next.delay - octave.hz * octave.delay) / (next.hz - octave.hz)] : [];
    return [octave.delay, ...group].flatMap((delay) =>
      around(delay, studentT * Math.max(octave.delayError, next?.delayError ?? 0)),
    );
  });
  const gains = octaves.flatMap(({ gainDb, gainErrorDb }) => around(gainDb, studentT * gainErrorDb));
  const [from, to] = spanOf([...latency, ...delays]);
  const early = from - lowPassFrames(octaves, filter, rateHz);
  return { latencyFrames: [early, to], gainDb: spanOf([...gain, ...gains]), filter };
}

/**
 * What a filter that takes the top of the known octaves down may hold all of them up by: a one-pole low-pass that is
 * `d` dB down at f delays what lies below by sqrt(10^(d/10) - 1) / (2 pi f); closed form.
 */
function lowPassFrames(
  octaves: readonly (Fitted & { readonly hz: number })[],
  { loudest }: FilterFacts,
  rateHz: number,
): number {
  const top = octaves[octaves.length - 1];
  const downDb = loudest.gainDb - top.gainDb + studentT * top.gainErrorDb;
  return downDb > 0 ? (Math.sqrt(10 ** (downDb / 10) - 1) * rateHz) / (2 * Math.PI * top.hz) : 0;
}

interface Fitted {
  readonly delay: number;
  readonly delayError: number;
  readonly gainDb: number;
  readonly gainErrorDb: number;
}

/** Delay and gain of some bins, and their standard errors. */
function fitOver(spectra: SharedSpectra, weights: Float64Array, start: number, bins: Interval): Fitted {
  const { size, stretches } = spectra;
  const found = (power: Float64Array, cross: Spectrum) => {
    const { delayFrames } = fitPhaseSlope(weightedIn(cross, weights, bins), start);
    return { delay: delayFrames, gain: directGain({ size, power, cross }, delayFrames, bins) };
  };
  const { delay, gain } = found(spectra.power, spectra.cross);
  const gainDb = gainToDb(Math.abs(gain));
  if (stretches.length < 2) return { delay, delayError: Infinity, gainDb, gainErrorDb: Infinity };
  const others = stretches.map((own) => {
    const left = found(
      spectra.power.map((power, k) => power - own.power[k]),
      {
        re: spectra.cross.re.map((x, k) => x - own.cross.re[k]),
        im: spectra.cross.im.map((x, k) => x - own.cross.im[k]),
      },
    );
    return { delay: left.delay, gainDb: gainToDb(Math.abs(left.gain)) };
  });
  return {
    delay,
    delayError: jackknifeError(others.map((other) => other.delay)),
    gainDb,
    gainErrorDb: jackknifeError(others.map((other) => other.gainDb)),
  };
}

function jackknifeError(values: readonly number[]): number {
  const count = values.length;
  const mean = values.reduce((sum, value) => sum + value, 0) / count;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return Math.sqrt(((count - 1) / count) * squares);
}

function weightedIn(cross: Spectrum, weights: Float64Array, [first, last]: Interval): Spectrum {
  const { re, im } = emptySpectrum(2 * (weights.length - 1));
  for (let k = first; k < last; k++) {
    re[k] = weights[k] * cross.re[k];
    im[k] = weights[k] * cross.im[k];
  }
  return { re, im };
}

function octaveBins(
  size: number,
  rateHz: number,
): readonly { readonly hz: number; readonly bins: Interval }[] {
  const found: { hz: number; bins: Interval }[] = [];
  for (let hz = 62.5; hz * Math.SQRT2 < 0.47 * rateHz; hz *= 2) {
    const [first, last] = [hz / Math.SQRT2, hz * Math.SQRT2].map((edge) =>
      Math.round((edge * size) / rateHz),
    );
    found.push({ hz, bins: [first, last] });
  }
  return found;
}

function filterIn(octaves: readonly (Fitted & { readonly hz: number })[]): FilterFacts | null {
  if (octaves.length < 2) return null;
  const byGain = [...octaves].sort((a, b) => a.gainDb - b.gainDb);
  const [softest, loudest] = [byGain[0], byGain[byGain.length - 1]];
  const errors = Math.hypot(softest.gainErrorDb, loudest.gainErrorDb);
  const apart = loudest.gainDb - softest.gainDb;
  return apart > filterDb && apart > filterErrors * errors ? { loudest, softest } : null;
}

const around = (value: number, by: number): Interval => [value - by, value + by];
const spanOf = (values: readonly number[]): Interval => [Math.min(...values), Math.max(...values)];
