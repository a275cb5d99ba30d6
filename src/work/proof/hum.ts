import { fftSizeFor } from "../../sound/dsp/analysisFft.js";
import { realFftOf } from "../../sound/dsp/realAnalysisFft.js";
import { powerToDb } from "../../sound/dsp/units.js";

/** What a side gives while the tone is silent. */
export interface SideNoise {
  /** RMS of the mains and its harmonics, and which mains; null where nothing stands out. */
  readonly humDbfs: number | null;
  readonly mainsHz: 50 | 60 | null;
  /** RMS of the rest; null for digital silence. */
  readonly hissDbfs: number | null;
}

const harmonics = 12;
/** A harmonic is what lies within this much of it. */
const reachHz = 3;
/** Lines count as hum where they hold this much more than as many bins beside them. */
const standsOut = 4;

/** Parts hum from hiss: lines at whole multiples of 50 or 60 Hz against what lies between them. */
export function noiseParts(silence: ArrayLike<number>, rateHz: number): SideNoise {
  const count = silence.length;
  if (count < rateHz / 10) return { humDbfs: null, mainsHz: null, hissDbfs: null };
  const fft = realFftOf(fftSizeFor(count));
  const windowed = new Float64Array(fft.size);
  let energy = 0;
  for (let n = 0; n < count; n++) {
    const hann = 0.5 - 0.5 * Math.cos((2 * Math.PI * n) / count);
    windowed[n] = silence[n] * hann;
    energy += silence[n] ** 2;
  }
  if (energy === 0) return { humDbfs: null, mainsHz: null, hissDbfs: null };
  const [re, im] = [new Float64Array(fft.size / 2 + 1), new Float64Array(fft.size / 2 + 1)];
  fft.forward(windowed, re, im);
  const power = re.map((x, k) => x * x + im[k] * im[k]);
  const total = power.reduce((sum, x) => sum + x, 0);
  const lines = ([50, 60] as const).map((mainsHz) => ({
    mainsHz,
    share: lineShare(power, mainsHz, rateHz / fft.size) / total,
  }));
  const [{ mainsHz, share }] = lines.sort((a, b) => b.share - a.share);
  const mean = energy / count;
  const hum = share > 0 ? share * mean : 0;
  return {
    humDbfs: hum > 0 ? powerToDb(hum) : null,
    mainsHz: hum > 0 ? mainsHz : null,
    hissDbfs: powerToDb(Math.max(mean - hum, 1e-20)),
  };
}

/** Power in the lines of a mains frequency over what lies beside them; 0 where none stands out. */
function lineShare(power: Float64Array, mainsHz: number, binHz: number): number {
  let lines = 0;
  for (let n = 1; n <= harmonics; n++) {
    const within = sumOver(power, (n * mainsHz - reachHz) / binHz, (n * mainsHz + reachHz) / binHz);
    const below = sumOver(power, (n * mainsHz - 3 * reachHz) / binHz, (n * mainsHz - reachHz) / binHz);
    const above = sumOver(power, (n * mainsHz + reachHz) / binHz, (n * mainsHz + 3 * reachHz) / binHz);
    const beside = 0.5 * (below + above);
    if (within > standsOut * beside) lines += within - beside;
  }
  return lines;
}

function sumOver(values: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let k = Math.max(0, Math.round(from)); k < Math.min(values.length, Math.round(to)); k++)
    sum += values[k];
  return sum;
}
