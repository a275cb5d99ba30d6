import type { BandEnergies } from "../../sound/measure/bandEnergies.js";
import type { Facts, Known, Peaks, StemPart, WetAndDry } from "../../sound/measure/facts.js";
import { type Band, octaveBands, thirdOctaveBands } from "../../sound/measure/isoBands.js";
import { everyHop, hop } from "../../sound/measure/loudness.js";
import { combine, combineEnergies, combineLags, entriesOf, productGains } from "./combined.js";
import type { Products } from "./products.js";

type Gains = ArrayLike<number>;

/** Gains of all stems to each side; and those of the same mix with the units' effect muted, where there are units. */
export interface StemGains {
  readonly left: Gains;
  readonly right: Gains;
  readonly dry: { readonly left: Gains; readonly right: Gains } | null;
}

/**
 * What is known of a mix without its sound: whatever follows from stems, but for what only its wiring tells. The peaks
 * too, where no side is a sum of several stems.
 */
export type MixFacts = Known & Pick<Facts, Exclude<StemPart, "comb">>;

/**
 * What measures read of mixes of stems, from the stems' inner products: the energies that the sound would have. Exact
 * to rounding, for any gains of either sign.
 *
 * One object serves any number of mixes, one after the other, in memory that it takes once: facts hold until the next.
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
    this.#lags = room("lags");
    this.#octaves = [room("octaves"), room("octaves"), room("octaves")];
    this.#thirds = [room("thirds"), room("thirds"), room("thirds")];
  }

  factsOf({ left, right, dry }: StemGains): MixFacts {
    const products = this.#products;
    const { stems, frames, rateHz } = products;
    const ll = productGains(left, left, stems);
    const rr = productGains(right, right, stems);
    const lr = productGains(left, right, stems);
    const both = ll.map((gain, p) => gain + rr[p]);
    const middle = squareGains(left, right, 1, stems);
    const whole = {
      left: this.#whole(ll),
      right: this.#whole(rr),
      cross: this.#cross(lr),
      mid: this.#whole(middle),
      side: this.#whole(squareGains(left, right, -1, stems)),
    };
    const momentary = combine(products, "momentary", both, this.#momentary);
    const shortTerm = combine(products, "shortTerm", both, this.#shortTerm);
    const [leftWindows, rightWindows, crossWindows] = this.#windows;
    const [zeroth, first] = combine(products, "moments", both, new Float64Array(2));
    return {
      rateHz,
      frames,
      whole,
      windows: {
        left: combine(products, "correlation", ll, leftWindows),
        right: combine(products, "correlation", rr, rightWindows),
        cross: combine(products, "correlation", lr, crossWindows),
      },
      loudness: {
        momentary,
        shortTerm,
        blocks: everyHop(momentary, this.#blocks),
        // (m, m), m = (L + R) / 2: 2 m^2 is what the middle M = (L + R) / sqrt2 has.
        foldedBlocks: combineEnergies(products, "momentary", middle, this.#foldedBlocks, hop),
        rangeWindows: everyHop(shortTerm, this.#rangeWindows),
      },
      spectrum: {
        octaves: bandsOf(products, "octaves", octaveBands, [ll, rr, lr], this.#octaves),
        thirds: bandsOf(products, "thirds", thirdOctaveBands, [ll, rr, lr], this.#thirds),
        moments: { zeroth, first },
        lags: combineLags(products, left, right, this.#lags),
        lagEnergies: whole.left * whole.right,
      },
      ...this.#peaks(left, right),
      wetAndDry: dry && this.#wetAndDry(left, right, dry),
    };
  }

  /** Energy over the whole take, 0 where everything cancels. */
  #whole(gains: Float64Array): number {
    return combineEnergies(this.#products, "whole", gains, new Float64Array(1))[0];
  }

  #cross(gains: Float64Array): number {
    return combine(this.#products, "whole", gains, new Float64Array(1))[0];
  }

  #wetAndDry(left: Gains, right: Gains, dry: { left: Gains; right: Gains }): WetAndDry {
    const { allStems } = this.#products;
    const energyOf = (gains: Gains) => this.#whole(productGains(gains, gains, allStems));
    const wetOf = (full: Gains, dryGains: Gains) =>
      Float64Array.from({ length: allStems }, (_, i) => (full[i] ?? 0) - dryGains[i]);
    return {
      wet: energyOf(wetOf(left, dry.left)) + energyOf(wetOf(right, dry.right)),
      dry: energyOf(dry.left) + energyOf(dry.right),
    };
  }

  /** On each side, no higher than the sum over the stems of |gain| times the stem's peak. */
  #peaks(left: Gains, right: Gains): { readonly peaks: Peaks | undefined; readonly peaksAtMost: Peaks } {
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
    const peaksAtMost = {
      samplePeak: Math.max(...sums.map(({ samplePeak }) => samplePeak)),
      truePeak: Math.max(...sums.map(({ truePeak }) => truePeak)),
    };
    return { peaks: sums.every(({ heard }) => heard <= 1) ? peaksAtMost : undefined, peaksAtMost };
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
