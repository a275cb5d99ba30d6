import { type RealAnalysisFft, realFftOf } from "../../sound/dsp/realAnalysisFft.js";
import type { Spectrum } from "../capture/sweepSpectrum.js";

/** Responses are looked at for about so long. */
const horizonSeconds = 1.3;
/** Bins that are kept: up to 6 kHz at 48 kHz. Above it cables and converters say more than wirings do. */
const keptBins = 8192;
/** Bins by which lags are found: up to 3 kHz. */
const lagBins = 4096;
/**
 * Every response is damped by this much over the horizon before it becomes a spectrum, so that what rings on beyond it
 * hardly wraps round to its start. Damping commutes with convolution: damped responses multiply as plain ones do.
 */
const dampingDb = 40;

/** The frequencies and the time on which predicted and measured responses meet. */
export interface ProofGrid {
  readonly rateHz: number;
  /** Frames of a response at the full rate. */
  readonly frames: number;
  /** Transform of a whole response. */
  readonly fft: RealAnalysisFft;
  /** Bins 0 to `bins`, `binHz` apart. */
  readonly bins: number;
  readonly binHz: number;
  /** The same band as a signal of 2 `bins` frames. */
  readonly lowFft: RealAnalysisFft;
  readonly lowRateHz: number;
  /** Bins 0 to `lagBins` alone as a signal. */
  readonly lagBins: number;
  readonly lagFft: RealAnalysisFft;
  /** Nepers a second. */
  readonly dampingPerSecond: number;
}

export function proofGrid(rateHz: number): ProofGrid {
  const frames = 2 ** Math.ceil(Math.log2(horizonSeconds * rateHz));
  const bins = Math.min(frames / 2, keptBins);
  const binHz = rateHz / frames;
  return {
    rateHz,
    frames,
    fft: realFftOf(frames),
    bins,
    binHz,
    lowFft: realFftOf(2 * bins),
    lowRateHz: 2 * bins * binHz,
    lagBins,
    lagFft: realFftOf(2 * lagBins),
    dampingPerSecond: (dampingDb * Math.LN10) / 20 / (frames / rateHz),
  };
}

/** The kept bins of a response, damped; what is beyond the horizon is left out. */
export function dampedSpectrum(response: ArrayLike<number>, grid: ProofGrid, from = 0): Spectrum {
  const damped = new Float64Array(grid.frames);
  const perFrame = grid.dampingPerSecond / grid.rateHz;
  for (let n = Math.max(0, -from); n < grid.frames && from + n < response.length; n++)
    damped[n] = response[from + n] * Math.exp(-perFrame * n);
  const re = new Float64Array(grid.frames / 2 + 1);
  const im = new Float64Array(grid.frames / 2 + 1);
  grid.fft.forward(damped, re, im);
  return { re: re.slice(0, grid.bins + 1), im: im.slice(0, grid.bins + 1) };
}

/** The damped response of a spectrum as a signal at the low rate; the highest octave's end is faded out. */
export function lowSignal({ re, im }: Spectrum, { bins, lowFft }: ProofGrid): Float64Array {
  const [fadedRe, fadedIm] = [re.slice(), im.slice()];
  const start = Math.floor(0.85 * bins);
  for (let k = start; k <= bins; k++) {
    const open = 0.5 + 0.5 * Math.cos((Math.PI * (k - start)) / (bins - start));
    fadedRe[k] *= open;
    fadedIm[k] *= open;
  }
  const signal = new Float64Array(2 * bins);
  lowFft.inverse(fadedRe, fadedIm, signal);
  return signal;
}
