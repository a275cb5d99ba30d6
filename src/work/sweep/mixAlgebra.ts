import { gainToDb, powerToDb } from "../../sound/dsp/units.js";
import { balanceDbOf } from "../../sound/measure/balance.js";
import type { BandEnergies } from "../../sound/measure/bandEnergies.js";
import { octaveMeasuresOf, thirdOctaveMeasuresOf, worstFoldDownHzOf } from "../../sound/measure/bands.js";
import { correlationOf } from "../../sound/measure/correlation.js";
import { type CorrelationSummary, correlationSummary } from "../../sound/measure/correlationOverTime.js";
import { foldDownLossDbOfBlocks } from "../../sound/measure/foldDown.js";
import { iaccOfLags } from "../../sound/measure/iacc.js";
import { type Band, octaveBands, thirdOctaveBands } from "../../sound/measure/isoBands.js";
import { integratedLufsOfBlocks, loudestLufs } from "../../sound/measure/loudness.js";
import { loudnessRangeLuOfWindows } from "../../sound/measure/loudnessRange.js";
import type { Measures } from "../../sound/measure/measures.js";
import { sideShareOf, sideToMidDbOf } from "../../sound/measure/sideShare.js";
import { centroidHzOfMoments, tiltDbPerOctaveOfThirds } from "../../sound/measure/tone.js";
import { combine, combineEnergies, combineLags, entriesOf, productGains } from "./combined.js";
import type { Products } from "./products.js";

type Gains = ArrayLike<number>;

/** Gains of all stems to each side; and those of the same mix with the units' effect muted, where there are units. */
export interface StemGains {
  readonly left: Gains;
  readonly right: Gains;
  readonly dry: { readonly left: Gains; readonly right: Gains } | null;
}

/** What is known of a mix without its sound. Sample and true peak are null where a side is a sum of several stems. */
export interface MixMeasures
  extends Omit<Measures, "reasons" | "decay" | "comb" | "widthKept" | "correlationOverTime"> {
  readonly correlationOverTime: CorrelationSummary | null;
  /** The true peak is no higher: on each side, the sum over the stems of |gain| times the stem's true peak. */
  readonly truePeakAtMostDbtp: number | null;
}

/** Steps of 10 ms from one gating block, and one short-term window of the loudness range, to the next. */
const hop = 10;

/**
 * Every quadratic measure of mixes of stems, from the stems' inner products: the functions that measure sound, given
 * the energies that the sound would have. Exact to rounding, for any gains of either sign.
 *
 * One object measures any number of mixes, one after the other, in memory that it takes once.
 * Source: bilinearity of the inner product, <sum a_i x_i, sum b_j x_j> = sum a_i b_j <x_i, x_j>.
 */
export class MixAlgebra {
  readonly #products: Products;
  readonly #momentary: Float64Array;
  readonly #shortTerm: Float64Array;
  readonly #blocks: Float64Array;
  readonly #foldedBlocks: Float64Array;
  readonly #rangeWindows: Float64Array;
  readonly #windows: readonly [Float64Array, Float64Array, Float64Array];
  readonly #windowScratch: Float64Array;
  readonly #lags: Float64Array;
  readonly #octaves: readonly Float64Array[];
  readonly #thirds: readonly Float64Array[];

  constructor(products: Products) {
    const room = (name: Parameters<typeof entriesOf>[1], step = 1) =>
      new Float64Array(entriesOf(products, name, step));
    this.#products = products;
    this.#momentary = room("momentary");
    this.#shortTerm = room("shortTerm");
    this.#blocks = room("momentary", hop);
    this.#foldedBlocks = room("momentary", hop);
    this.#rangeWindows = room("shortTerm", hop);
    this.#windows = [room("correlation"), room("correlation"), room("correlation")];
    this.#windowScratch = room("correlation");
    this.#lags = room("lags");
    this.#octaves = [room("octaves"), room("octaves"), room("octaves")];
    this.#thirds = [room("thirds"), room("thirds"), room("thirds")];
  }

  measuresOf({ left, right, dry }: StemGains): MixMeasures {
    const products = this.#products;
    const { stems, frames } = products;
    const ll = productGains(left, left, stems);
    const rr = productGains(right, right, stems);
    const lr = productGains(left, right, stems);
    const both = ll.map((gain, p) => gain + rr[p]);
    const middle = squareGains(left, right, 1, stems);
    const mid = this.#whole(middle);
    const side = this.#whole(squareGains(left, right, -1, stems));
    const energies = { left: this.#whole(ll), right: this.#whole(rr), cross: this.#cross(lr) };

    const momentary = combine(products, "momentary", both, this.#momentary);
    const shortTerm = combine(products, "shortTerm", both, this.#shortTerm);
    const blocks = everyHop(momentary, this.#blocks);
    // (m, m), m = (L + R) / 2: 2 m^2 is what the middle M = (L + R) / sqrt2 has.
    const foldedBlocks = combineEnergies(products, "momentary", middle, this.#foldedBlocks, hop);
    const [leftWindows, rightWindows, crossWindows] = this.#windows;
    const octaves = bandsOf(products, "octaves", octaveBands, [ll, rr, lr], this.#octaves);
    const thirds = bandsOf(products, "thirds", thirdOctaveBands, [ll, rr, lr], this.#thirds);
    const [zeroth, first] = combine(products, "moments", both, new Float64Array(2));
    return {
      correlation: correlationOf(energies),
      correlationOverTime: correlationSummary(
        combine(products, "correlation", ll, leftWindows),
        combine(products, "correlation", rr, rightWindows),
        combine(products, "correlation", lr, crossWindows),
        this.#windowScratch,
      ),
      iacc: iaccOfLags(combineLags(products, left, right, this.#lags), energies.left * energies.right),
      sideShare: sideShareOf({ mid, side }),
      sideToMidDb: finite(sideToMidDbOf({ mid, side })),
      balanceDb: finite(balanceDbOf(energies)),
      foldDownLossDb: finite(foldDownLossDbOfBlocks(blocks, foldedBlocks)),
      worstFoldDownHz: worstFoldDownHzOf(octaves),
      integratedLufs: integratedLufsOfBlocks(blocks),
      shortTermMaxLufs: loudestLufs(shortTerm),
      momentaryMaxLufs: loudestLufs(momentary),
      loudnessRangeLu: loudnessRangeLuOfWindows(everyHop(shortTerm, this.#rangeWindows), this.#rangeWindows),
      ...this.#peaks(left, right),
      centroidHz: centroidHzOfMoments({ zeroth, first }),
      tiltDbPerOctave: tiltDbPerOctaveOfThirds(thirds),
      bands: octaveMeasuresOf(octaves, frames),
      thirds: thirdOctaveMeasuresOf(thirds, frames),
      wetToDryDb: dry && this.#wetToDryDb(left, right, dry),
    };
  }

  /** Energy over the whole take, 0 where everything cancels. */
  #whole(gains: Float64Array): number {
    return combineEnergies(this.#products, "whole", gains, new Float64Array(1))[0];
  }

  #cross(gains: Float64Array): number {
    return combine(this.#products, "whole", gains, new Float64Array(1))[0];
  }

  /** Energy of what the units add over that of the rest, at both buses; null where either is nothing. */
  #wetToDryDb(left: Gains, right: Gains, dry: { left: Gains; right: Gains }): number | null {
    const { allStems } = this.#products;
    const energyOf = (gains: Gains) => this.#whole(productGains(gains, gains, allStems));
    const wetOf = (full: Gains, dryGains: Gains) =>
      Float64Array.from({ length: allStems }, (_, i) => (full[i] ?? 0) - dryGains[i]);
    const wetEnergy = energyOf(wetOf(left, dry.left)) + energyOf(wetOf(right, dry.right));
    const dryEnergy = energyOf(dry.left) + energyOf(dry.right);
    return wetEnergy > 0 && dryEnergy > 0 ? powerToDb(wetEnergy / dryEnergy) : null;
  }

  #peaks(left: Gains, right: Gains) {
    const { sections, values, stems } = this.#products;
    const sums = [left, right].map((gains) => {
      const sum = { samplePeak: 0, truePeak: 0, heard: 0 };
      for (let i = 0; i < stems; i++) {
        const at = sections.peaks.start + 2 * i;
        sum.samplePeak += Math.abs(gains[i]) * values[at];
        sum.truePeak += Math.abs(gains[i]) * values[at + 1];
        if (gains[i] !== 0) sum.heard++;
      }
      return sum;
    });
    const isExact = sums.every(({ heard }) => heard <= 1);
    const samplePeakDbfs = peakDb(sums.map(({ samplePeak }) => samplePeak));
    const truePeakAtMostDbtp = peakDb(sums.map(({ truePeak }) => truePeak));
    return {
      samplePeakDbfs: isExact ? samplePeakDbfs : null,
      truePeakDbtp: isExact ? truePeakAtMostDbtp : null,
      truePeakAtMostDbtp,
    };
  }
}

/** Gains that differ by less are equal: no sound in single precision tells them apart. */
const equalWithin = 1e-12;

/** Gains of the pairs in (a + sign b)^2 / 2. */
function squareGains(a: Gains, b: Gains, sign: 1 | -1, stems: number): Float64Array {
  const sum = Float64Array.from({ length: stems }, (_, i) => {
    const gain = a[i] + sign * b[i];
    return Math.abs(gain) <= equalWithin * Math.abs(a[i]) ? 0 : gain * Math.SQRT1_2;
  });
  return productGains(sum, sum, stems);
}

function everyHop(values: Float64Array, out: Float64Array): Float64Array {
  for (let k = 0; k < out.length; k++) out[k] = values[k * hop];
  return out;
}

function bandsOf(
  products: Products,
  name: "octaves" | "thirds",
  bands: readonly Band[],
  gains: readonly Float64Array[],
  rooms: readonly Float64Array[],
): (BandEnergies | null)[] {
  const [left, right, cross] = gains.map((own, n) => combine(products, name, own, rooms[n]));
  return bands.map((band, k) =>
    Number.isNaN(left[k] + right[k])
      ? null
      : { band, left: Math.max(0, left[k]), right: Math.max(0, right[k]), cross: cross[k] },
  );
}

const peakDb = (peaks: readonly number[]): number | null => finite(gainToDb(Math.max(...peaks)));

const finite = (value: number | null): number | null =>
  value !== null && Number.isFinite(value) ? value : null;
