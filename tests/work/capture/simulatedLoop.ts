import type { Clip } from "../../../src/sound/audio/clip.js";
import { fftSizeFor } from "../../../src/sound/dsp/analysisFft.js";
import { realFftOf } from "../../../src/sound/dsp/realAnalysisFft.js";
import { dbToGain } from "../../../src/sound/dsp/units.js";
import { noise } from "../../signals.js";

/** What lies between player and recorder. Everything left out does nothing. */
export interface Loop {
  /** Impulse response of the unit. */
  readonly response?: ArrayLike<number>;
  /** A curve without memory, ahead of the response. */
  readonly curve?: (x: number) => number;
  /** Delay of the whole loop, any fraction of a frame. */
  readonly latencyFrames?: number;
  readonly gainDb?: number;
  readonly inverts?: boolean;
  /** Parts per million that the recorder runs faster than the player. */
  readonly driftPpm?: number;
  /** RMS of added white noise, dBFS. */
  readonly noiseDbfs?: number;
  readonly seed?: number;
  /** The recorder was started this much before the player. */
  readonly earlyFrames?: number;
  /** Extra recorded at the end. */
  readonly lateFrames?: number;
}

/** Plays a sound through a loop, in doubles, by other means than the code under test: spectra and polynomials. */
export function playThrough(sound: ArrayLike<number>, loop: Loop, rateHz: number): Clip {
  const { latencyFrames = 0, gainDb = 0, inverts = false, driftPpm = 0, noiseDbfs, seed = 1 } = loop;
  const { earlyFrames = 0, lateFrames = 0 } = loop;
  const response = loop.response ?? [1];
  const curve = loop.curve ?? ((x: number) => x);
  const frames = sound.length + Math.ceil(latencyFrames) + lateFrames;
  const size = fftSizeFor(frames + response.length + 2048);
  const played = new Float64Array(size);
  for (let n = 0; n < sound.length; n++) played[n] = curve(sound[n]);
  const { re, im } = spectrumOf(played);
  const { re: hRe, im: hIm } = spectrumOf(response, size);
  const gain = dbToGain(gainDb) * (inverts ? -1 : 1);
  for (let k = 0; k <= size / 2; k++) {
    const angle = (-2 * Math.PI * k * latencyFrames) / size;
    const [c, s] = [gain * Math.cos(angle), gain * Math.sin(angle)];
    const [a, b] = [re[k] * hRe[k] - im[k] * hIm[k], re[k] * hIm[k] + im[k] * hRe[k]];
    re[k] = a * c - b * s;
    im[k] = k === size / 2 ? 0 : a * s + b * c;
  }
  const added =
    noiseDbfs === undefined ? null : noise({ seed, frames: earlyFrames + frames, rms: dbToGain(noiseDbfs) });
  const fine = fourTimes(re, im);
  const out = Float32Array.from({ length: earlyFrames + frames }, (_, n) => {
    const at = (4 * (n - earlyFrames)) / (1 + driftPpm * 1e-6);
    return (at < -1000 ? 0 : lagrangeRead(fine, at)) + (added ? added[n] : 0);
  });
  return { rateHz, channels: [out] };
}

/** Bins 0 to half of `size` of a signal, with silence behind it. */
function spectrumOf(signal: ArrayLike<number>, size = signal.length) {
  const padded = new Float64Array(size);
  padded.set(signal);
  const [re, im] = [new Float64Array(size / 2 + 1), new Float64Array(size / 2 + 1)];
  realFftOf(size).forward(padded, re, im);
  return { re, im };
}

/** The signal of a spectrum at four times the rate: nothing above its end. */
function fourTimes(re: Float64Array, im: Float64Array): Float64Array {
  const half = re.length - 1;
  const [wideRe, wideIm] = [new Float64Array(4 * half + 1), new Float64Array(4 * half + 1)];
  for (let k = 0; k < half; k++) {
    wideRe[k] = 4 * re[k];
    wideIm[k] = 4 * im[k];
  }
  const wide = new Float64Array(8 * half);
  realFftOf(8 * half).inverse(wideRe, wideIm, wide);
  return wide;
}

/**
 * Between frames of a circular signal, by Lagrange's polynomial through the eight nearest. At four times the rate 20 kHz
 * is a tenth of it, where order 7 loses 0.0002 dB midway (J. O. Smith, Physical Audio Signal Processing).
 */
function lagrangeRead(signal: Float64Array, position: number): number {
  const whole = Math.floor(position);
  const part = position - whole;
  const at = (n: number) => signal[n < 0 ? n + signal.length : n];
  if (part === 0) return at(whole);
  // w[tap] / (part - tap), each over the sum of all: the second barycentric form (Berrut and Trefethen 2004, SIAM Review 46).
  let [sum, weights] = [0, 0];
  for (let tap = -3; tap <= 4; tap++) {
    const weight = barycentric[tap + 3] / (part - tap);
    sum += weight * at(whole + tap);
    weights += weight;
  }
  return sum / weights;
}
/** Binomials of 7 with turning signs: eight points, evenly apart. */
const barycentric = [1, -7, 21, -35, 35, -21, 7, -1];

/** Noise under an exponential that falls by 60 dB in `t60Seconds`, energy 1. */
export function decayingNoise(options: {
  t60Seconds: number;
  rateHz: number;
  lengthSeconds: number;
  seed: number;
}) {
  const { t60Seconds, rateHz, lengthSeconds, seed } = options;
  const frames = Math.round(lengthSeconds * rateHz);
  const white = noise({ seed, frames, rms: 1 });
  const shaped = Float64Array.from(white, (x, n) => x * 10 ** ((-3 * n) / rateHz / t60Seconds));
  const energy = Math.sqrt(shaped.reduce((sum, x) => sum + x * x, 0));
  return shaped.map((x) => x / energy);
}

/**
 * Energy of the difference between a measured response, which starts `startFrames` late, and the true one, which
 * starts `latencyFrames` late, to the energy of the true one, within a band; dB.
 */
export function errorInBandDb(
  measured: { response: ArrayLike<number>; startFrames: number },
  truth: { response: ArrayLike<number>; latencyFrames: number; gain?: number },
  rateHz: number,
  [lowHz, highHz]: readonly [number, number],
): number {
  const size = fftSizeFor(2 * Math.max(measured.response.length, truth.response.length, 4096));
  const a = spectrumOf(measured.response, size);
  const b = spectrumOf(truth.response, size);
  const late = measured.startFrames - truth.latencyFrames;
  const gain = truth.gain ?? 1;
  let [difference, energy] = [0, 0];
  for (let k = Math.ceil((lowHz * size) / rateHz); k <= (highHz * size) / rateHz; k++) {
    const angle = (-2 * Math.PI * k * late) / size;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    const re = a.re[k] * c - a.im[k] * s - gain * b.re[k];
    const im = a.re[k] * s + a.im[k] * c - gain * b.im[k];
    difference += re * re + im * im;
    energy += gain * gain * (b.re[k] ** 2 + b.im[k] ** 2);
  }
  return 10 * Math.log10(difference / energy);
}
