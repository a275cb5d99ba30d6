import { fftSizeFor } from "../../sound/dsp/analysisFft.js";
import { realFftOf } from "../../sound/dsp/realAnalysisFft.js";
import { powerToDb } from "../../sound/dsp/units.js";
import { spectrumOf } from "./sweepSpectrum.js";

/** The lowest and the highest frequency at which a response is within so many dB of its passband. */
export interface Bandwidth {
  readonly fromHz: number;
  readonly toHz: number;
  /** True where the range ends because the tone did, not because the unit fell off. */
  readonly endsWithTone: { readonly low: boolean; readonly high: boolean };
}

export interface Passband {
  /** Mean of |H|^2 over log frequency in the tone's band: what an equal power in every octave gains. */
  readonly gainDb: number;
  readonly within3Db: Bandwidth;
  readonly within10Db: Bandwidth;
}

/** Points of the smoothed curve in an octave. */
const perOctave = 24;

/**
 * Gain and bandwidth of a response: |H|^2 averaged in third octaves around each of 24 points an octave; the range
 * runs to the outermost points that are at most 3 (and 10) dB below the upper quartile of all. Common practice is to
 * count from the loudest or from 1 kHz; a reverb's ragged spectrum makes both a matter of luck.
 *
 * @param bandHz where the response was measured
 */
export function passbandOf(
  response: ArrayLike<number>,
  rateHz: number,
  bandHz: readonly [number, number],
): Passband {
  const { powers, binHz } = powersOf(response, rateHz);
  const sums = powers.slice();
  for (let k = 1; k < sums.length; k++) sums[k] += sums[k - 1];
  const meanPower = (fromHz: number, toHz: number): number => {
    const first = Math.max(1, Math.ceil(fromHz / binHz));
    const last = Math.max(first, Math.min(sums.length - 1, Math.floor(toHz / binHz)));
    return (sums[last] - sums[first - 1]) / (last - first + 1);
  };
  const count = Math.floor(Math.log2(bandHz[1] / bandHz[0]) * perOctave) + 1;
  const centresHz = Array.from({ length: count }, (_, n) => bandHz[0] * 2 ** (n / perOctave));
  const levelsDb = centresHz.map((hz) =>
    powerToDb(meanPower(Math.max(bandHz[0], hz * 2 ** (-1 / 6)), Math.min(bandHz[1], hz * 2 ** (1 / 6)))),
  );
  return {
    gainDb: meanGainDb(powers, binHz, bandHz),
    within3Db: rangeWithin(10 * Math.log10(2), centresHz, levelsDb),
    within10Db: rangeWithin(10, centresHz, levelsDb),
  };
}

/** Gain over a band: mean of |H|^2 over log frequency. */
export function bandGainDb(
  response: ArrayLike<number>,
  rateHz: number,
  bandHz: readonly [number, number],
): number {
  const { powers, binHz } = powersOf(response, rateHz);
  return meanGainDb(powers, binHz, bandHz);
}

/** Energy of a signal within a band. */
export function bandEnergy(
  signal: ArrayLike<number>,
  rateHz: number,
  bandHz: readonly [number, number],
): number {
  const { powers, binHz } = powersOf(signal, rateHz);
  const inside = powers.subarray(Math.ceil(bandHz[0] / binHz), Math.floor(bandHz[1] / binHz) + 1);
  return inside.reduce((sum, power) => sum + power, 0) * ((2 * binHz) / rateHz);
}

/** |H|^2 from bin 0 to N/2, bins at most 1/4 Hz apart. */
function powersOf(response: ArrayLike<number>, rateHz: number): { powers: Float64Array; binHz: number } {
  const fft = realFftOf(fftSizeFor(Math.max(4 * rateHz, response.length)));
  const { re, im } = spectrumOf(response, fft);
  const powers = re.map((x, k) => x * x + im[k] * im[k]);
  return { powers, binHz: rateHz / fft.size };
}

function meanGainDb(powers: Float64Array, binHz: number, bandHz: readonly [number, number]): number {
  let sum = 0;
  let weight = 0;
  for (let k = Math.ceil(bandHz[0] / binHz); k * binHz <= bandHz[1]; k++) {
    sum += powers[k] / k;
    weight += 1 / k;
  }
  return powerToDb(sum / weight);
}

function rangeWithin(downDb: number, centresHz: readonly number[], levelsDb: readonly number[]): Bandwidth {
  const sorted = levelsDb.toSorted((a, b) => a - b);
  const limit = sorted[(3 * sorted.length) >> 2] - downDb;
  const inside = (db: number) => db >= limit;
  const crossing = (n: number, beyond: number): number => {
    if (beyond < 0 || beyond >= levelsDb.length) return centresHz[n];
    const part = (levelsDb[n] - limit) / (levelsDb[n] - levelsDb[beyond]);
    return centresHz[n] * (centresHz[beyond] / centresHz[n]) ** part;
  };
  const [low, high] = [levelsDb.findIndex(inside), levelsDb.findLastIndex(inside)];
  return {
    fromHz: crossing(low, low - 1),
    toHz: crossing(high, high + 1),
    endsWithTone: { low: low === 0, high: high === levelsDb.length - 1 },
  };
}
