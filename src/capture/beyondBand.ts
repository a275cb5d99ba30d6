import type { Spectrum } from "./spectrum.js";
import { mirror, type SweepInverse } from "./sweepInverse.js";

/** Frames ahead of the first arrival in which a response may already move: filters ring ahead so much. */
export const leadFrames = 64;
const rounds = 16;

/**
 * Lets a response go on beyond the swept band in the one way open to a real unit: silent until its sound arrives, and
 * again when its tail is over. Without it the missing octaves ring ahead of the first arrival, and a response that
 * starts with its sound would have to cut that off. Inside the band nothing changes.
 *
 * By turns everything outside those frames is silenced and the measured band put back. Noise under an exponential, cut
 * where it starts, is wrong by -50 dB in the band with constant edge gains alone, by -67 dB after this.
 *
 * @param known the measured spectrum, faded by the band's weight, its first arrival on frame 0; N/2 + 1 bins count
 * @param rough a first guess of all of it, as `withEdgeGains` makes; spent
 * @param to    one past the tail's last frame
 * Source: extrapolation by alternating two constraints, Papoulis 1975 (IEEE Trans. CAS 22(9)) and Gerchberg 1974
 * (Optica Acta 21(9)), from memory; there a limited band was known and time was wanted, here the other way about.
 */
export function settleBeyondBand(
  known: Spectrum,
  rough: Spectrum,
  inverse: SweepInverse,
  to: number,
): Spectrum {
  const { fft, weight } = inverse;
  const half = fft.size / 2;
  const { re, im } = rough;
  for (let round = 0; round < rounds; round++) {
    fft.inverse(re, im);
    re.fill(0, to, fft.size - leadFrames);
    im.fill(0);
    fft.forward(re, im);
    for (let k = 0; k <= half; k++) {
      re[k] = known.re[k] + (1 - weight[k]) * re[k];
      im[k] = known.im[k] + (1 - weight[k]) * im[k];
    }
    mirror({ re, im });
  }
  return { re, im };
}

/** The spectrum of a signal `frames` earlier, up to the middle bin. */
export function advanced({ re, im }: Spectrum, frames: number): Spectrum {
  const size = re.length;
  const out = { re: new Float64Array(size), im: new Float64Array(size) };
  const step = (2 * Math.PI * frames) / size;
  for (let k = 0; k <= size / 2; k++) {
    const c = Math.cos(k * step);
    const s = Math.sin(k * step);
    out.re[k] = re[k] * c - im[k] * s;
    out.im[k] = re[k] * s + im[k] * c;
  }
  return out;
}

/**
 * Carries a response on below and above the band with the mean real gain of the third octave (top: sixth) inside each
 * edge; exact for a cable.
 */
export function withEdgeGains(known: Spectrum, { fft, layout, weight }: SweepInverse): Spectrum {
  const [re, im] = [known.re.slice(), known.im.slice()];
  const binHz = layout.settings.rateHz / fft.size;
  const [lowHz, highHz] = layout.bandHz;
  const lowGain = meanBetween(re, lowHz / binHz, (lowHz * 2 ** (1 / 3)) / binHz);
  const highGain = meanBetween(re, (highHz * 2 ** (-1 / 6)) / binHz, highHz / binHz);
  const middle = Math.sqrt(lowHz * highHz) / binHz;
  for (let k = 0; k <= fft.size / 2; k++) re[k] += (1 - weight[k]) * (k < middle ? lowGain : highGain);
  mirror({ re, im });
  return { re, im };
}

function meanBetween(values: Float64Array, from: number, to: number): number {
  const [first, last] = [Math.ceil(from), Math.max(Math.ceil(from), Math.floor(to))];
  let sum = 0;
  for (let k = first; k <= last; k++) sum += values[k];
  return sum / (last - first + 1);
}
