import type { Block } from "../../sound/dsp/kernel.js";
import { KFilter } from "../../sound/dsp/kFilter.js";
import { bandEnergies } from "../../sound/measure/bandEnergies.js";
import { type Band, octaveBands, thirdOctaveBands } from "../../sound/measure/isoBands.js";
import { loudnessStepsPerSecond } from "../../sound/measure/kEnergies.js";
import { lagProducts } from "../../sound/measure/lagProducts.js";
import { momentaryWindows, shortTermWindows, windowPowers } from "../../sound/measure/loudness.js";
import { momentsOf } from "../../sound/measure/moments.js";
import { TruePeakMeter } from "../../sound/measure/truePeak.js";
import { correlationStepsPerSecond, correlationWindows } from "../../sound/measure/windowEnergies.js";
import { type Products, packed, pairsOf } from "./products.js";
import { type CrossSpectrum, StemSpectra } from "./stemSpectra.js";
import { type Pair, StepProducts } from "./stepProducts.js";

/** A set of signals whose inner products are wanted with each other: of `full` all of them, of `plain` those of the whole take. */
export interface StemGroup {
  readonly full: readonly number[];
  readonly plain: readonly number[];
}

/** Frames that all parts see before the next ones: they stay in the near cache meanwhile. */
const runFrames = 1024;

/**
 * Inner products of groups of signals, as they stream by. Signals that several groups hold are filtered and
 * transformed once, and pairs that several groups hold are multiplied once.
 */
export class StemMeter {
  readonly #rateHz: number;
  readonly #groups: readonly StemGroup[];
  /** Signals with every product, and with those of the whole take. */
  readonly #full: readonly number[];
  readonly #all: readonly number[];
  readonly #pairs: PairTable;
  readonly #plainPairs: PairTable;
  readonly #steps: StepProducts;
  readonly #whole: StepProducts;
  readonly #weighted: StepProducts;
  readonly #spectra: StemSpectra;
  readonly #filters: readonly KFilter[];
  readonly #peaks: readonly TruePeakMeter[];
  readonly #runs: Float32Array[];
  readonly #weightedRuns: readonly Float32Array[];
  #frames = 0;

  constructor(rateHz: number, groups: readonly StemGroup[]) {
    this.#rateHz = rateHz;
    this.#groups = groups;
    this.#full = distinct(groups.flatMap(({ full }) => full));
    this.#all = distinct([...this.#full, ...groups.flatMap(({ plain }) => plain)]);
    this.#pairs = new PairTable(
      groups.flatMap(({ full }) => pairsAmong(full)),
      this.#all,
    );
    this.#plainPairs = new PairTable(
      groups
        .flatMap(({ full, plain }) => pairsAmong([...full, ...plain]))
        .filter((pair) => !this.#pairs.has(pair)),
      this.#all,
    );
    this.#steps = new StepProducts(correlationStepsPerSecond, rateHz, this.#pairs.places);
    this.#whole = new StepProducts(correlationStepsPerSecond, rateHz, this.#plainPairs.places);
    this.#weighted = new StepProducts(loudnessStepsPerSecond, rateHz, this.#pairs.places);
    this.#spectra = new StemSpectra(rateHz, this.#full.length, this.#pairs.places);
    this.#filters = Array.from({ length: Math.ceil(this.#full.length / 2) }, () => new KFilter(rateHz));
    this.#peaks = this.#full.map(() => new TruePeakMeter(rateHz));
    this.#runs = this.#all.map(() => new Float32Array(0));
    // One more, for what the last filter makes of a second channel that is not there.
    this.#weightedRuns = Array.from({ length: this.#full.length + 1 }, () => new Float32Array(runFrames));
  }

  /** Takes `frames` frames of every signal; `signals[n]` is the one that groups call n. */
  push(signals: Block, frames: number): void {
    for (let from = 0; from < frames; from += runFrames) {
      const count = Math.min(runFrames, frames - from);
      this.#all.forEach((signal, s) => {
        this.#runs[s] = signals[signal].subarray(from, from + count);
      });
      this.#steps.push(this.#runs, count);
      this.#whole.push(this.#runs, count);
      this.#spectra.push(this.#runs, count);
      this.#weigh(count);
      this.#weighted.push(this.#weightedRuns, count);
      this.#peaks.forEach((meter, s) => {
        meter.push(this.#runs[s], count);
      });
    }
    this.#frames += frames;
  }

  /** Products of each group, its `full` signals first. Ends the sound. */
  result(): Products[] {
    const rateHz = this.#rateHz;
    const steps = this.#steps.rows().map(correlationWindows);
    const weighted = this.#weighted.rows();
    const momentary = weighted.map((row) => windowPowers(row, rateHz, momentaryWindows));
    const shortTerm = weighted.map((row) => windowPowers(row, rateHz, shortTermWindows));
    const spectra = this.#spectra.result();
    const spectral = spectra.map((cross) => this.#spectralRows(cross));
    const wholeFull = this.#steps.whole();
    const wholePlain = this.#whole.whole();
    const wholeOf = (pair: Pair) => [
      this.#pairs.has(pair) ? wholeFull[this.#pairs.rowOf(pair)] : wholePlain[this.#plainPairs.rowOf(pair)],
    ];
    const peaks = this.#peaks.map((meter) => meter.result());
    return this.#groups.map(({ full, plain }) => {
      const pairs = pairsAmong(full);
      const rows = pairs.map((pair) => this.#pairs.rowOf(pair));
      return packed(
        { rateHz, frames: this.#frames, stems: full.length, allStems: full.length + plain.length },
        {
          whole: pairsAmong([...full, ...plain]).map(wholeOf),
          correlation: rows.map((row) => steps[row]),
          momentary: rows.map((row) => momentary[row]),
          shortTerm: rows.map((row) => shortTerm[row]),
          octaves: rows.map((row) => spectral[row].octaves),
          thirds: rows.map((row) => spectral[row].thirds),
          moments: rows.map((row) => spectral[row].moments),
          lags: pairs.map((pair, n) => turned(spectral[rows[n]].lags, this.#pairs.isTurned(pair))),
          peaks: full.map((signal) => {
            const { samplePeak, truePeak } = peaks[this.#full.indexOf(signal)];
            return [samplePeak, truePeak];
          }),
        },
      );
    });
  }

  #weigh(frames: number): void {
    const runs = this.#runs;
    const weighted = this.#weightedRuns;
    this.#filters.forEach((filter, f) => {
      const left = runs[2 * f];
      const right = 2 * f + 1 < this.#full.length ? runs[2 * f + 1] : left;
      filter.process([left, right], [weighted[2 * f], weighted[2 * f + 1]], frames);
    });
  }

  #spectralRows(cross: CrossSpectrum) {
    const { crossReal } = cross;
    const { binHz } = this.#spectra;
    const rateHz = this.#rateHz;
    const low = { binHz: cross.low.binHz, products: Array<Float64Array>(3).fill(cross.low.crossReal) };
    const whole = { rateHz, binHz, frames: this.#frames };
    const spectrum = { ...cross, ...whole, left: crossReal, right: crossReal, low };
    const inBands = (bands: readonly Band[]) =>
      bandEnergies(spectrum, bands).map((band) => (band === null ? Number.NaN : band.cross));
    const { zeroth, first } = momentsOf(crossReal, binHz);
    return {
      octaves: inBands(octaveBands),
      thirds: inBands(thirdOctaveBands),
      moments: [zeroth, first],
      lags: lagProducts(cross, rateHz),
    };
  }
}

const distinct = (signals: readonly number[]): number[] => [...new Set(signals)];

/** Pairs of a list's signals, in the order of `pairIndex`. */
const pairsAmong = (signals: readonly number[]): Pair[] =>
  pairsOf(signals.length).map(([i, j]) => [signals[i], signals[j]] as const);

/** lag -n of a pair is lag n of the pair the other way round. */
const turned = (lags: Float64Array, isTurned: boolean): Float64Array => (isTurned ? lags.toReversed() : lags);

/** Pairs of signals, each once whatever its order, with the places of their signals in a list. */
class PairTable {
  readonly places: Pair[] = [];
  readonly #rows = new Map<string, number>();
  readonly #first: number[] = [];

  constructor(pairs: readonly Pair[], signals: readonly number[]) {
    const placeOf = new Map(signals.map((signal, place) => [signal, place]));
    for (const [i, j] of pairs) {
      const key = keyOf([i, j]);
      if (this.#rows.has(key)) continue;
      this.#rows.set(key, this.places.length);
      this.#first.push(i);
      this.places.push([placeOf.get(i)!, placeOf.get(j)!]);
    }
  }

  has(pair: Pair): boolean {
    return this.#rows.has(keyOf(pair));
  }

  rowOf(pair: Pair): number {
    return this.#rows.get(keyOf(pair))!;
  }

  /** True when the pair stands in the table the other way round. */
  isTurned(pair: Pair): boolean {
    return this.#first[this.rowOf(pair)] !== pair[0];
  }
}

const keyOf = ([i, j]: Pair): string => (i <= j ? `${i} ${j}` : `${j} ${i}`);
