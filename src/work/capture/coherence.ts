import { realFftOf } from "../../sound/dsp/realAnalysisFft.js";
import { emptySpectrum, type Spectrum, spectrumOf } from "./sweepSpectrum.js";

/** Averaged spectra of two signals, bins 0 to N/2. */
export interface SharedSpectra {
  readonly size: number;
  /** Mean |A|^2. */
  readonly power: Float64Array;
  /** Mean conj(A) B. */
  readonly cross: Spectrum;
  /** Magnitude-squared coherence |Sab|^2 / (Saa Sbb), 0 to 1; 0 where it is not told from chance. */
  readonly coherence: Float64Array;
  /** Power and cross-spectrum of stretches of the take, one after the other, whose sums are those above. */
  readonly stretches: readonly Pick<SharedSpectra, "power" | "cross">[];
}

/** So many stretches, where there are as many windows. */
const mostStretches = 10;

const size = 8192;
/** Pieces more than this below the loudest say more of the noise than of the loop. */
const quietShare = 1e-4;
/** Coherence that two unrelated signals exceed at one bin in a hundred. */
const chance = 0.01;

/**
 * Welch averages over Hann windows of 8192 frames, half overlapping, `b` read `lag` frames later than `a`.
 *
 * Coherence of unrelated signals averaged n times exceeds 1 - chance^(1/(n-1)): what lies below is set to 0. Windows
 * that overlap by half count for 1 / 1.9 more each than alone would.
 * Source: Welch 1967 (IEEE Trans. AU 15(2)); Carter 1987 (Proc. IEEE 75(2)) for the significance level; both from memory.
 */
export function sharedSpectra(a: Float32Array, b: Float32Array, lag: number): SharedSpectra {
  const fft = realFftOf(size);
  const window = Float64Array.from(
    { length: size },
    (_, n) => 0.5 - 0.5 * Math.cos((2 * Math.PI * n) / size),
  );
  const starts = loudStarts(a, b, lag);
  const half = size / 2;
  const [aa, bb] = [new Float64Array(half + 1), new Float64Array(half + 1)];
  const cross = emptySpectrum(size);
  const stretches = Array.from({ length: Math.min(mostStretches, starts.length) }, () => ({
    power: new Float64Array(half + 1),
    cross: emptySpectrum(size),
  }));
  const cut = (signal: Float32Array, from: number) =>
    spectrumOf(
      window.map((w, n) => w * (signal[from + n] ?? 0)),
      fft,
    );
  for (const [place, start] of starts.entries()) {
    const own = stretches[Math.floor((place * stretches.length) / starts.length)];
    const x = cut(a, start);
    const y = cut(b, start + lag);
    for (let k = 1; k < half; k++) {
      bb[k] += y.re[k] * y.re[k] + y.im[k] * y.im[k];
      own.power[k] += x.re[k] * x.re[k] + x.im[k] * x.im[k];
      own.cross.re[k] += x.re[k] * y.re[k] + x.im[k] * y.im[k];
      own.cross.im[k] += x.re[k] * y.im[k] - x.im[k] * y.re[k];
    }
  }
  for (const own of stretches) {
    for (let k = 1; k < half; k++) {
      aa[k] += own.power[k];
      cross.re[k] += own.cross.re[k];
      cross.im[k] += own.cross.im[k];
    }
  }
  const independent = Math.max(2, starts.length / 1.9);
  const least = 1 - chance ** (1 / (independent - 1));
  const coherence = Float64Array.from(aa, (power, k) => {
    const shared = (cross.re[k] ** 2 + cross.im[k] ** 2) / (power * bb[k]);
    return shared > least ? shared : 0;
  });
  return { size, power: aa, cross, coherence, stretches };
}

/** Starts of the windows in which `a` is not far below its loudest, and both signals have frames. */
function loudStarts(a: Float32Array, b: Float32Array, lag: number): number[] {
  const first = Math.max(0, -lag);
  const last = Math.min(a.length, b.length - lag) - size;
  const starts: number[] = [];
  for (let start = first; start <= Math.max(first, last); start += size / 2) starts.push(start);
  const energies = starts.map((start) => a.subarray(start, start + size).reduce((sum, x) => sum + x * x, 0));
  const loudest = Math.max(...energies);
  return starts.filter((_, n) => energies[n] >= quietShare * loudest);
}
