import type { PedalUse } from "../../rig/pedals/pedalModel.js";
import { emptySpectrum, type Spectrum } from "../capture/sweepSpectrum.js";
import { type Board, boardResponse, type Moment } from "./boardResponse.js";
import { type CellPlan, type Covariances, covariancesOf } from "./cells.js";
import { lowSignal, type ProofGrid } from "./proofGrid.js";
import { type AskedRecording, inRecording } from "./recordingList.js";
import type { UnitSpectra } from "./unitSpectra.js";

export type Clips = PedalUse["clips"];

/** What a board gives at one moment. */
export interface PredictedMoment {
  /** The lowest bins of each side, by which its lag is found: real and imaginary parts by turns; null for a dead one. */
  readonly lagSpectra: readonly (Float32Array | null)[];
  /** Where the first arrival is, frames at the low rate. */
  readonly start: number;
  readonly cells: Covariances;
}

/** Where LFOs are held, a turn of the golden section apart so that several never keep step. */
const phases = 6;
/** Plain gains that a driven pedal is taken for, dB: it depends on the level of the tone. */
const driveGainsDb = [-6, 3, 12, 21];

/** The moments at which a board is looked at in a recording: one where everything stands still. */
function momentsOf({ swinging, driven, feed }: AskedRecording): readonly Moment[] {
  const phaseCount = swinging.length === 0 ? 1 : driven.length > 0 ? 4 : phases;
  const gains = driven.length === 0 ? [0] : driveGainsDb;
  return gains.flatMap((gainDb) =>
    Array.from({ length: phaseCount }, (_, n) => ({
      feed,
      driveGain: 10 ** (gainDb / 20),
      phaseDegrees: (swinging: number) =>
        (360 * (n / phaseCount + 0.618 * swinging * n + 0.25 * swinging)) % 360,
    })),
  );
}

/** What boards give in recordings; of one tone and the settings of one rig. Remembers on request. */
export class Predictor {
  readonly grid: ProofGrid;
  readonly #units: UnitSpectra;
  readonly #known: Map<string, readonly PredictedMoment[]> | null;

  /** @param remembers keeps what was predicted, for judging many recordings of one wiring */
  constructor(grid: ProofGrid, units: UnitSpectra, remembers = false) {
    this.grid = grid;
    this.#units = units;
    this.#known = remembers ? new Map() : null;
  }

  /** What a board gives in a recording, at every moment that it is looked at. @param id of the board, and of no other */
  moments(id: string, board: Board, asked: AskedRecording, plan: CellPlan): readonly PredictedMoment[] {
    const key = JSON.stringify([id, asked.off, asked.feed]);
    const known = this.#known?.get(key);
    if (known) return known;
    const made = this.#moments(board, asked, plan);
    this.#known?.set(key, made);
    return made;
  }

  #moments(board: Board, asked: AskedRecording, plan: CellPlan): readonly PredictedMoment[] {
    const { grid } = this;
    const played: Board = { ...board, wiring: inRecording(board.wiring, asked) };
    return momentsOf(asked).map((moment) => {
      const spectra = boardResponse(played, moment, this.#units, grid);
      const sides = spectra.map((spectrum) => spectrum && lowSignal(spectrum, grid));
      const start = firstArrival(sides);
      const lagSpectra = spectra.map((spectrum) => spectrum && lagSpectrum(spectrum, grid));
      return { lagSpectra, start, cells: covariancesOf(sides, start, plan) };
    });
  }
}

/** The lowest bins of a spectrum, faded out. */
export function lagSpectrum({ re, im }: Spectrum, { lagBins }: ProofGrid): Float32Array {
  const out = new Float32Array(2 * lagBins);
  for (let k = 0; k < lagBins; k++) {
    const open = 0.5 + 0.5 * Math.cos((Math.PI * k) / lagBins);
    out[2 * k] = open * re[k];
    out[2 * k + 1] = open * im[k];
  }
  return out;
}

/** The first frame within 20 dB of the loudest, of whichever side. */
function firstArrival(sides: readonly (Float64Array | null)[]): number {
  const live = sides.filter((side) => side !== null);
  let peak = 0;
  for (const side of live) for (const x of side) peak = Math.max(peak, Math.abs(x));
  const least = 0.1 * peak;
  const first = live.map((side) => side.findIndex((x) => Math.abs(x) >= least)).filter((n) => n >= 0);
  return first.length > 0 && peak > 0 ? Math.min(...first) : 0;
}

/**
 * Frames at the low rate by which what was measured comes after what is predicted, where the two are most alike, in
 * either polarity.
 */
export function lagBetween(
  measured: readonly (Float32Array | null)[],
  wanted: readonly (Float32Array | null)[],
  [least, most]: readonly [number, number],
  { lagBins, lagFft, bins }: ProofGrid,
): number {
  const cross = emptySpectrum(2 * lagBins);
  for (const [n, p] of wanted.entries()) {
    const m = measured[n];
    if (!p || !m) continue;
    for (let k = 0; k < lagBins; k++) {
      cross.re[k] += m[2 * k] * p[2 * k] + m[2 * k + 1] * p[2 * k + 1];
      cross.im[k] += m[2 * k + 1] * p[2 * k] - m[2 * k] * p[2 * k + 1];
    }
  }
  const correlation = new Float64Array(2 * lagBins);
  lagFft.inverse(cross.re, cross.im, correlation);
  const ratio = bins / lagBins;
  const at = (n: number) => Math.abs(correlation[(n + correlation.length) % correlation.length]);
  const [first, last] = [Math.floor(least / ratio), Math.ceil(most / ratio)];
  let best = first;
  for (let n = first; n <= last; n++) if (at(n) > at(best)) best = n;
  return Math.round(ratio * (best + topOffset(at(best - 1), at(best), at(best + 1))));
}

/** Where a parabola through three points has its top, from the middle one. */
function topOffset(before: number, middle: number, after: number): number {
  const bend = before - 2 * middle + after;
  return bend < 0 ? Math.max(-0.5, Math.min(0.5, (0.5 * (before - after)) / bend)) : 0;
}
