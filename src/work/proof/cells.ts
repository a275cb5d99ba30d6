import { fftSizeFor } from "../../sound/dsp/analysisFft.js";
import { type RealAnalysisFft, realFftOf } from "../../sound/dsp/realAnalysisFft.js";
import type { ProofGrid } from "./proofGrid.js";

/**
 * A response cut into cells of time and frequency. In each stands the covariance of left and right, so much of it as
 * does not hang on what rings exactly when: two energies, and how alike the sides are and in which phase.
 */
export interface CellPlan {
  readonly windows: readonly Window[];
  readonly cells: readonly Cell[];
}

interface Window {
  /** Frames at the low rate after the first arrival; before it where negative. */
  readonly from: number;
  readonly taper: Float64Array;
  readonly fft: RealAnalysisFft;
}

interface Cell {
  readonly window: number;
  readonly firstBin: number;
  readonly lastBin: number;
  readonly fromHz: number;
  readonly toHz: number;
  readonly fromMs: number;
  /** The cells of the first window that cover its band, first and last. */
  readonly direct: readonly [number, number];
  /** What the cell may weigh: the independent values in it, or fewer. */
  readonly weight: number;
}

/** Of each cell: left, right, and the real and imaginary part of left times conjugate right. */
export type Covariances = Float64Array;

/** Ends of the windows, ms from the first arrival. The first holds what comes dry, with the combs of latencies. */
const windowEndsMs = [-4, 16, 45, 110, 250, 550, 1100];
const lowestHz = 90;
const highestHz = 5_000;
/** No cell weighs more, however many values are in it: units are never their models to the decibel. */
const mostWeight = { direct: 6, later: 12 };
/** What swings is known by its averages: its cells weigh so much less. */
const swingingShare = 0.5;

/** @param fine whether the first window is looked at in sixths of an octave: for what stands still */
export function cellPlan(grid: ProofGrid, fine: boolean): CellPlan {
  const windows: Window[] = [];
  const cells: Cell[] = [];
  for (let n = 0; n + 1 < windowEndsMs.length; n++) {
    const [fromMs, toMs] = [windowEndsMs[n], windowEndsMs[n + 1]];
    const from = Math.round((fromMs / 1000) * grid.lowRateHz);
    const frames = Math.round((toMs / 1000) * grid.lowRateHz) - from;
    const fft = realFftOf(fftSizeFor(frames));
    windows.push({ from, taper: taperOf(frames), fft });
    const seconds = (toMs - fromMs) / 1000;
    const most = n === 0 ? mostWeight.direct : mostWeight.later;
    const ratio = n === 0 && fine ? 2 ** (1 / 6) : 2;
    for (const [fromHz, toHz] of bandsFor(grid, ratio, 1 / seconds)) {
      const bin = (hz: number) => Math.round((hz * fft.size) / grid.lowRateHz);
      const weight = (fine ? 1 : swingingShare) * Math.min(most, Math.max(1, (toHz - fromHz) * seconds));
      const direct = [cells.length, cells.length] as const;
      cells.push({
        window: n,
        firstBin: bin(fromHz),
        lastBin: bin(toHz),
        fromHz,
        toHz,
        fromMs,
        weight,
        direct,
      });
    }
  }
  return { windows, cells: cells.map((cell) => ({ ...cell, direct: covering(cells, cell) })) };
}

function covering(cells: readonly Cell[], { fromHz, toHz }: Cell): readonly [number, number] {
  const over = cells.flatMap((cell, n) =>
    cell.window === 0 && cell.fromHz < toHz && cell.toHz > fromHz ? [n] : [],
  );
  return [over[0], over[over.length - 1]];
}

/** Bands of a ratio, none narrower than `leastHz`. */
function bandsFor(
  { lowRateHz }: ProofGrid,
  ratio: number,
  leastHz: number,
): readonly (readonly [number, number])[] {
  const bands: [number, number][] = [];
  const top = Math.min(highestHz, 0.42 * lowRateHz);
  for (let from = lowestHz; from < 0.8 * top; ) {
    const to = Math.min(top, Math.max(from * ratio, from + leastHz));
    bands.push([from, to]);
    from = to;
  }
  return bands;
}

/** Flat with raised-cosine ends, each a tenth of the whole. */
function taperOf(frames: number): Float64Array {
  const edge = Math.max(1, Math.round(frames / 10));
  return Float64Array.from({ length: frames }, (_, n) => {
    const near = Math.min(1, (Math.min(n, frames - 1 - n) + 0.5) / edge);
    return 0.5 - 0.5 * Math.cos(Math.PI * near);
  });
}

/** @param start the first arrival, frames at the low rate; frames outside the signals count as zeros */
export function covariancesOf(
  channels: readonly (Float64Array | null)[],
  start: number,
  { windows, cells }: CellPlan,
): Covariances {
  const out = new Float64Array(4 * cells.length);
  const spectra = windows.map(({ from, taper, fft }) =>
    [channels[0] ?? null, channels[1] ?? null].map((signal) => {
      const re = new Float64Array(fft.size / 2 + 1);
      const im = new Float64Array(fft.size / 2 + 1);
      if (signal === null) return { re, im };
      const cut = new Float64Array(fft.size);
      for (let n = 0; n < taper.length; n++) cut[n] = taper[n] * (signal[start + from + n] ?? 0);
      fft.forward(cut, re, im);
      return { re, im };
    }),
  );
  for (const [n, { window, firstBin, lastBin }] of cells.entries()) {
    const [left, right] = spectra[window];
    const scale = 1 / (lastBin - firstBin + 1);
    for (let k = firstBin; k <= lastBin; k++) {
      const [a, b, c, d] = [left.re[k], left.im[k], right.re[k], right.im[k]];
      out[4 * n] += scale * (a * a + b * b);
      out[4 * n + 1] += scale * (c * c + d * d);
      out[4 * n + 2] += scale * (a * c + b * d);
      out[4 * n + 3] += scale * (b * c - a * d);
    }
  }
  return out;
}

/** The silence that noise is measured in is short. */
const noiseMargin = 1.3;

/**
 * What noise makes of each cell.
 * @param powerAt mean square a frame and bin of the noise, at the full rate, by frequency
 */
export function noiseOf(
  powerAt: (fromHz: number, toHz: number) => number,
  start: number,
  { windows, cells }: CellPlan,
  grid: ProofGrid,
): Float64Array {
  const perFrame = grid.dampingPerSecond / grid.lowRateHz;
  const energies = windows.map(({ from, taper }) =>
    taper.reduce((sum, w, n) => sum + w * w * Math.exp(-2 * perFrame * Math.max(0, start + from + n)), 0),
  );
  // A low signal holds the sum of the bins over fewer frames: its values are larger by the ratio of the rates.
  const scale = (noiseMargin * grid.rateHz) / grid.lowRateHz;
  return Float64Array.from(
    cells,
    ({ window, fromHz, toHz }) => energies[window] * scale * powerAt(fromHz, toHz),
  );
}
