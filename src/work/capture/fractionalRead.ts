import { besselI0 } from "../../sound/dsp/besselI0.js";

/** Taps on either side of the point that is read. */
const half = 32;
const phases = 2048;
/** Kaiser's beta: side lobes near -100 dB, and flat to 0.45 of the rate with 64 taps. */
const beta = 10;
/** Made when it is first read from. */
let table: Float64Array | null = null;

/**
 * Reads a signal at positions origin + n * stretch, n = 0 .. frames - 1: a change of clock by a few parts in ten
 * thousand, not of rate (nothing guards against aliases). Outside the signal there is silence.
 *
 * Source: windowed sinc, Kaiser and Schafer 1980 (window), from memory; J. O. Smith, "Digital Audio Resampling"
 * (table with linear interpolation between phases).
 */
export function readStretched(
  signal: ArrayLike<number>,
  origin: number,
  stretch: number,
  frames: number,
): Float64Array {
  const out = new Float64Array(frames);
  for (let n = 0; n < frames; n++) out[n] = readAt(signal, origin + n * stretch);
  return out;
}

/** The signal's value between frames, by a 64-tap windowed sinc. */
export function readAt(signal: ArrayLike<number>, position: number): number {
  const whole = Math.floor(position);
  const phase = (position - whole) * phases;
  const row = Math.floor(phase);
  const blend = phase - row;
  if (whole < -half || whole >= signal.length + half) return 0;
  if (phase === 0) return whole >= 0 && whole < signal.length ? signal[whole] : 0;
  const first = Math.max(0, whole - half + 1);
  const last = Math.min(signal.length - 1, whole + half);
  const offset = row * 2 * half - (whole - half + 1);
  table ??= kernelTable();
  const weights = table;
  let near = 0;
  let far = 0;
  for (let n = first; n <= last; n++) {
    near += signal[n] * weights[offset + n];
    far += signal[n] * weights[offset + n + 2 * half];
  }
  return near + blend * (far - near);
}

/** table[row * 2 * half + tap]: weight of the frame (tap - half + 1) away when reading row / phases past a frame. */
function kernelTable(): Float64Array {
  const out = new Float64Array((phases + 1) * 2 * half);
  for (let row = 0; row <= phases; row++) {
    for (let tap = 0; tap < 2 * half; tap++) {
      const x = tap - half + 1 - row / phases;
      const edge = 1 - (x / half) ** 2;
      const window = edge > 0 ? besselI0(beta * Math.sqrt(edge)) / besselI0(beta) : 0;
      out[row * 2 * half + tap] = window * (x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x));
    }
  }
  return out;
}
