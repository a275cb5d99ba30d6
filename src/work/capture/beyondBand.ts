import type { SweepInverse } from "./sweepInverse.js";
import { advanced, copyOf, emptySpectrum, type Spectrum, signalOf } from "./sweepSpectrum.js";

/** At most so many rounds; fewer when a round takes less than a thousandth off what still sounds outside. */
const mostRounds = 24;
const leastGain = 1e-3;
/** Sound outside the frames at this share of all of it is none. */
const silence = 1e-10;

/**
 * Lets a response go on beyond the swept band in the one way open to a real unit: silent until its sound arrives, and
 * again when its tail is over. Without it the missing octaves ring ahead of the first arrival, and a response that
 * starts with its sound would have to cut that off. Inside the band nothing changes.
 *
 * The spectrum beyond the band is chosen so that the least energy stands outside the frames: min over z of the energy
 * outside of known + (1 - W) z, by conjugate gradients. The 1997 plate, cut where it starts, is wrong by -33 dB in the
 * band with constant edge gains alone, by better than -60 dB after this.
 *
 * @param rough the measured spectrum with a first guess beyond the band, as `withEdgeGains` makes; spent
 * @param from  first frame that may sound, negative
 * @param to    one past the tail's last frame
 * Source: the problem of Papoulis 1975 (IEEE Trans. CAS 22(9)) and Gerchberg 1974 (Optica Acta 21(9)) with the parts of
 * time and frequency exchanged; conjugate gradients: Hestenes and Stiefel 1952; from memory.
 */
export function settleBeyondBand(rough: Spectrum, inverse: SweepInverse, from: number, to: number): Spectrum {
  const { re, im } = rough;
  const { size } = inverse.fft;
  const bins = re.length;
  const open = inverse.weight.map((weight) => 1 - weight);
  const residual = copyOf(rough);
  const all = powerOf(residual) / size;
  let outside = keepOutside(residual, inverse, open, from, to);
  let steep = powerOf(residual);
  const way = copyOf(residual);
  const trial = emptySpectrum(size);
  for (let round = 0; round < mostRounds && outside > silence * all; round++) {
    for (let k = 0; k < bins; k++) {
      trial.re[k] = open[k] * way.re[k];
      trial.im[k] = open[k] * way.im[k];
    }
    const curve = size * keepOutside(trial, inverse, open, from, to);
    if (!(curve > 0)) break;
    const step = steep / curve;
    const before = steep;
    for (let k = 0; k < bins; k++) {
      re[k] -= step * open[k] * way.re[k];
      im[k] -= step * open[k] * way.im[k];
      residual.re[k] -= step * trial.re[k];
      residual.im[k] -= step * trial.im[k];
    }
    steep = powerOf(residual);
    for (let k = 0; k < bins; k++) {
      way.re[k] = residual.re[k] + (steep / before) * way.re[k];
      way.im[k] = residual.im[k] + (steep / before) * way.im[k];
    }
    const gain = (step * before) / size;
    outside -= gain;
    if (gain < leastGain * outside) break;
  }
  return rough;
}

/** In place: (1 - W) times the spectrum of what stands outside the frames. Returns the energy of that. */
function keepOutside(
  spectrum: Spectrum,
  { fft }: SweepInverse,
  open: Float64Array,
  from: number,
  to: number,
): number {
  const { re, im } = spectrum;
  const signal = signalOf(spectrum, fft);
  signal.fill(0, 0, to);
  signal.fill(0, fft.size + from);
  let energy = 0;
  for (let n = to; n < fft.size + from; n++) energy += signal[n] * signal[n];
  fft.forward(signal, re, im);
  for (let k = 0; k < open.length; k++) {
    re[k] *= open[k];
    im[k] *= open[k];
  }
  return energy;
}

/** Sum of |X|^2 over all N bins, positive and negative. */
function powerOf({ re, im }: Spectrum): number {
  const last = re.length - 1;
  let sum = (re[0] * re[0] + re[last] * re[last]) / 2;
  for (let k = 1; k < last; k++) sum += re[k] * re[k] + im[k] * im[k];
  return 2 * sum;
}

/**
 * Carries a response on below and above the band with the mean gain that its first arrival has in the third octave
 * (top: sixth) inside each edge; exact for a cable.
 *
 * @param onsetFrames the first arrival
 */
export function withEdgeGains(
  known: Spectrum,
  { fft, layout, weight }: SweepInverse,
  onsetFrames: number,
): Spectrum {
  const { re, im } = advanced(known, onsetFrames);
  const binHz = layout.settings.rateHz / fft.size;
  const [lowHz, highHz] = layout.bandHz;
  const lowGain = meanBetween(re, lowHz / binHz, (lowHz * 2 ** (1 / 3)) / binHz);
  const highGain = meanBetween(re, (highHz * 2 ** (-1 / 6)) / binHz, highHz / binHz);
  const middle = Math.sqrt(lowHz * highHz) / binHz;
  for (let k = 0; k <= fft.size / 2; k++) re[k] += (1 - weight[k]) * (k < middle ? lowGain : highGain);
  return advanced({ re, im }, -onsetFrames);
}

function meanBetween(values: Float64Array, from: number, to: number): number {
  const [first, last] = [Math.ceil(from), Math.max(Math.ceil(from), Math.floor(to))];
  let sum = 0;
  for (let k = first; k <= last; k++) sum += values[k];
  return sum / (last - first + 1);
}
