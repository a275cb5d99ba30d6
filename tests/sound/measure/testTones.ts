import { AnalysisFft } from "../../../src/sound/dsp/analysisFft.js";
import { dbToGain } from "../../../src/sound/dsp/units.js";
import { randomNumbers } from "../../signals.js";

/** A part of a test signal: so long, at such a peak level; null for silence. */
export type Part = readonly [lengthSeconds: number, peakDbfs: number | null];

/** Rates that every loudness case is tried at; 69 313 is prime: a rate nobody tuned for. */
export const rates = [44_100, 48_000, 69_313];

/** A 1 kHz sine whose level changes from part to part, its phase running on, as in EBU Tech 3341 and 3342. */
export function levels(parts: readonly Part[], rateHz: number, frequencyHz = 1000): Float32Array {
  const ends: number[] = [];
  let seconds = 0;
  for (const [lengthSeconds] of parts) {
    seconds += lengthSeconds;
    ends.push(Math.round(seconds * rateHz));
  }
  const out = new Float32Array(ends[ends.length - 1] ?? 0);
  const step = (2 * Math.PI * frequencyHz) / rateHz;
  let n = 0;
  parts.forEach(([, peakDbfs], k) => {
    const peak = peakDbfs === null ? 0 : dbToGain(peakDbfs);
    for (; n < ends[k]; n++) out[n] = peak * Math.sin(step * n);
  });
  return out;
}

/** The same parts, `times` times. */
export const repeated = (times: number, parts: readonly Part[]): Part[] =>
  Array.from({ length: times }, () => parts).flat();

/** In place: raised-cosine fades of `lengthSeconds` at both ends. An abrupt start overshoots between its samples. */
export function faded(signal: Float32Array, rateHz: number, lengthSeconds = 0.02): Float32Array {
  const frames = Math.round(lengthSeconds * rateHz);
  for (let n = 0; n < frames; n++) {
    const gain = 0.5 - 0.5 * Math.cos((Math.PI * n) / frames);
    signal[n] *= gain;
    signal[signal.length - 1 - n] *= gain;
  }
  return signal;
}

/** Sums of two signals of one length, each times its gain. */
export function mix(a: Float32Array, gainA: number, b: Float32Array, gainB: number): Float32Array {
  return a.map((x, n) => gainA * x + gainB * b[n]);
}

/** `signal` later by whole frames, of the same length. */
export function delayed(signal: Float32Array, frames: number): Float32Array {
  const out = new Float32Array(signal.length);
  out.set(signal.subarray(0, signal.length - frames), frames);
  return out;
}

/** Noise whose bin k has exactly the size `gain(k)`, its phases by chance; `size` frames, one period of it. */
export function shapedNoise(size: number, seed: number, gain: (k: number) => number): Float32Array {
  const next = randomNumbers(seed);
  const re = new Float64Array(size);
  const im = new Float64Array(size);
  for (let k = 1; k < size / 2; k++) {
    const angle = 2 * Math.PI * next();
    re[k] = gain(k) * Math.cos(angle);
    im[k] = gain(k) * Math.sin(angle);
    re[size - k] = re[k];
    im[size - k] = -im[k];
  }
  new AnalysisFft(size).inverse(re, im);
  return Float32Array.from(re);
}
