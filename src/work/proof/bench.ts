import type { Clip } from "../../sound/audio/clip.js";
import { UserError } from "../../text/userError.js";
import type { Clock } from "../capture/clock.js";
import { saysNoTone } from "../capture/locate.js";
import { spectrumOf } from "../capture/sweepSpectrum.js";
import { toneLayout } from "../capture/toneLayout.js";
import type { ToneSettings } from "../capture/toneSettings.js";
import type { Board } from "./boardResponse.js";
import { type CellPlan, type Covariances, cellPlan, covariancesOf, noiseOf } from "./cells.js";
import type { Evidence } from "./likelihood.js";
import { type Clips, lagBetween, lagSpectrum, Predictor } from "./moments.js";
import { proofGrid } from "./proofGrid.js";
import { clockIn, type MeasuredBoard, measureBoard, type ToneReader, toneReader } from "./readBoard.js";
import type { AskedRecording } from "./recordingList.js";
import { UnitSpectra } from "./unitSpectra.js";

/** What was recorded, for one of the list. */
export interface BenchSound {
  readonly asked: AskedRecording;
  readonly clip: Clip;
  /** For messages. */
  readonly file: string;
}

/** A board under a name that no other has. */
export interface NamedBoard {
  readonly id: string;
  readonly board: Board;
}

/** Predictions for recordings of one tone. */
export const predictorFor = (tone: ToneSettings, clips: Clips, remembers = false): Predictor => {
  const grid = proofGrid(tone.rateHz);
  return new Predictor(grid, new UnitSpectra(grid, clips, toneLayout(tone)), remembers);
};

/** Recordings of one board, ready to be held against any other. */
export class Bench {
  readonly #predictor: Predictor;
  readonly #fine: CellPlan;
  readonly #coarse: CellPlan;
  readonly recordings: readonly BenchRecording[];
  readonly sides: 1 | 2;

  /** @param predictor of this tone */
  constructor(
    recordings: readonly BenchSound[],
    tone: ToneSettings,
    predictor: Predictor,
    onRecording: (n: number) => void = () => {},
  ) {
    const reader = toneReader(tone);
    const { grid } = predictor;
    this.#predictor = predictor;
    this.#fine = cellPlan(grid, true);
    this.#coarse = cellPlan(grid, false);
    this.sides = recordings[0].clip.channels.length === 1 ? 1 : 2;
    const found = clocksOf(recordings, reader);
    const clocks = withOneDrift(found, recordings, reader);
    this.recordings = recordings.map(({ asked, clip }, n) => {
      onRecording(n);
      return this.#recording(asked, measureBoard(clip, clocks[n], reader, grid, found[n] === null));
    });
  }

  /** Recordings in which everything stands still and nothing is driven; all, where there is none. */
  get judging(): readonly BenchRecording[] {
    const exact = this.recordings.filter(({ isExact }) => isExact);
    return exact.length > 0 ? exact : this.recordings;
  }

  /** What a recording says of a board. */
  evidence({ id, board }: NamedBoard, recording: BenchRecording): Evidence {
    const { asked, plan, lagSpectra, lagRange } = recording;
    const moments = this.#predictor
      .moments(id, board, asked, plan)
      .map(({ lagSpectra: wanted, start, cells }) => {
        const [least, most] = lagRange;
        const lag = lagBetween(lagSpectra, wanted, [least - start, most - start], this.#predictor.grid);
        return { predicted: cells, measured: recording.cellsAt(start + lag, lag), at: start + lag };
      });
    const noise = recording.noiseAt(moments[0].at);
    return {
      plan,
      noise,
      channels: this.sides,
      isDriven: asked.driven.length > 0,
      moments: asked.swinging.length > 0 ? withMean(moments) : moments,
    };
  }

  #recording(asked: AskedRecording, measured: MeasuredBoard): BenchRecording {
    const { grid } = this.#predictor;
    const isStill = asked.swinging.length === 0;
    const plan = isStill ? this.#fine : this.#coarse;
    const { responses, noise, noiseBinHz } = measured;
    const mean = meanOf(responses);
    const cells = new Map<number, Covariances>();
    const noises = new Map<number, readonly [Float64Array, Float64Array]>();
    const sidesNoise = (start: number): readonly [Float64Array, Float64Array] => {
      const [left, right = left] = noise.map(({ responsePowerAt }) =>
        noiseOf(
          (fromHz, toHz) => meanBetween(responsePowerAt, fromHz / noiseBinHz, toHz / noiseBinHz),
          start,
          plan,
          grid,
        ),
      );
      return [left, right];
    };
    const nepers = grid.dampingPerSecond / grid.lowRateHz;
    const ahead = Math.round(0.04 * grid.lowRateHz);
    const reach = Math.round(0.03 * grid.lowRateHz);
    return {
      asked,
      measured,
      plan,
      isExact: isStill && asked.driven.length === 0,
      lagSpectra: mean.map((side) => lagSpectrum(spectrumOf(side, grid.lowFft), grid)),
      lagRange: [ahead - reach, ahead + reach],
      cellsAt: (start, lag) => {
        const known = cells.get(start) ?? meanCells(responses, start, plan);
        cells.set(start, known);
        const scale = Math.exp(2 * nepers * lag);
        return known.map((x) => x * scale);
      },
      noiseAt: (start) => {
        const known = noises.get(start) ?? sidesNoise(start);
        noises.set(start, known);
        return known;
      },
    };
  }
}

export interface BenchRecording {
  readonly asked: AskedRecording;
  readonly measured: MeasuredBoard;
  readonly plan: CellPlan;
  /** Nothing swings or is driven in it. */
  readonly isExact: boolean;
  readonly lagSpectra: readonly (Float32Array | null)[];
  /** Where the first arrival may be, frames at the low rate. */
  readonly lagRange: readonly [number, number];
  readonly cellsAt: (start: number, lag: number) => Covariances;
  readonly noiseAt: (start: number) => readonly [Float64Array, Float64Array];
}

/** So far under the loudest recording one may hold no tone: then nothing gets through the board. */
const silentUnder = 10 ** (-20 / 20);

/**
 * Where the tone stands in each recording; null in one that holds hardly a sound where others do.
 * @throws UserError for one that holds something else, or when none holds the tone
 */
function clocksOf(recordings: readonly BenchSound[], reader: ToneReader): readonly (Clock | null)[] {
  const found = recordings.map(({ clip }) => clockOrError(clip, reader));
  if (found.every(saysNoTone)) throw new UserError(nothingHeard);
  const levels = recordings.map(({ clip }) => Math.max(...clip.channels.map(rmsOf)));
  const loudest = Math.max(...levels);
  return found.map((each, n) => {
    if (!(each instanceof UserError)) return each;
    if (saysNoTone(each) && levels[n] < silentUnder * loudest) return null;
    const { file } = recordings[n];
    throw new UserError(each.faults.map((fault) => ({ file, ...fault })));
  });
}

const nothingHeard =
  "no recording holds this test tone: nothing gets through the board, or another tone was played. Check the board's first and last cables, that the recorder was set to the board's outputs, and the tone's description (--tone).";

function clockOrError(clip: Clip, reader: ToneReader): Clock | UserError {
  try {
    return clockIn(clip, reader);
  } catch (error) {
    if (error instanceof UserError) return error;
    throw error;
  }
}

function rmsOf(samples: Float32Array): number {
  return Math.sqrt(samples.reduce((sum, x) => sum + x * x, 0) / samples.length);
}

/** One pair of devices has one drift: the middle one of what recordings say in which nothing swings. */
function withOneDrift(
  found: readonly (Clock | null)[],
  recordings: readonly { readonly asked: AskedRecording }[],
  { layout }: ToneReader,
): readonly Clock[] {
  const clocks = found.filter((clock) => clock !== null);
  const still = found.flatMap((clock, n) =>
    clock !== null && recordings[n].asked.swinging.length === 0 ? [clock] : [],
  );
  const stretches = (still.length > 0 ? still : clocks).map((clock) => clock.stretch).sort((a, b) => a - b);
  const stretch = stretches[stretches.length >> 1];
  const anchor = layout.sweepStarts[0];
  return found.map((clock) =>
    clock === null
      ? { origin: 0, stretch }
      : { origin: clock.origin + (clock.stretch - stretch) * anchor, stretch },
  );
}

/** Moments of a swinging board, and their mean: what many turns of an LFO within one cell come to. */
function withMean(moments: readonly { readonly predicted: Covariances; readonly measured: Covariances }[]) {
  const mean = moments[0].predicted.map(
    (_, n) => moments.reduce((sum, { predicted: cells }) => sum + cells[n], 0) / moments.length,
  );
  return [...moments, { predicted: mean, measured: moments[0].measured }];
}

function meanOf(repeats: readonly (readonly Float64Array[])[]): readonly Float64Array[] {
  return repeats[0].map((first, side) =>
    first.map((_, n) => repeats.reduce((sum, sides) => sum + sides[side][n], 0) / repeats.length),
  );
}

function meanCells(
  repeats: readonly (readonly Float64Array[])[],
  start: number,
  plan: CellPlan,
): Covariances {
  const each = repeats.map((sides) => covariancesOf(sides, start, plan));
  return each[0].map((_, n) => each.reduce((sum, cells) => sum + cells[n], 0) / each.length);
}

function meanBetween(values: Float64Array, from: number, to: number): number {
  const [first, last] = [Math.floor(from), Math.min(values.length - 1, Math.ceil(to))];
  let sum = 0;
  for (let n = first; n <= last; n++) sum += values[n];
  return sum / (last - first + 1);
}
