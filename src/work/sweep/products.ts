/**
 * Inner products of stems, the signals that a last mix is made of: all that is needed to know every quadratic measure
 * of any mix of them. With stems x_i and gains g, the energy of sum(g_i x_i) in a band, a window or the whole take is
 * the sum over pairs of g_i g_j <x_i, x_j> there: exact for any gains, since mixing is linear and energy quadratic.
 */
export interface Products {
  readonly rateHz: number;
  readonly frames: number;
  /** Stems with every product; further ones, behind them, have whole-take products alone. */
  readonly stems: number;
  readonly allStems: number;
  readonly sections: Readonly<Record<SectionName, ProductSection>>;
  /** All sections; on a SharedArrayBuffer, so that threads read them without a copy. */
  readonly values: Float64Array;
}

/** Rows of one length, one a pair of stems, at `pairIndex(i, j)`. */
export interface ProductSection {
  readonly start: number;
  readonly rowLength: number;
}

/**
 * whole: sum(x_i x_j) over the take, of all stems, the one section with rows for the further ones.
 * correlation: the same in windows of 400 ms, one every 100 ms.
 * momentary, shortTerm: mean K-weighted products in windows of 400 ms and of 3 s, one every 10 ms.
 * octaves, thirds: products of what lies in each band, the real part of the cross spectrum; NaN past half the rate.
 * moments: of the cross spectrum, sum(P) and sum(f P).
 * lags: sum(x_i[n + lag] x_j[n]), i <= j, at whole lags from -1 ms to 1 ms.
 * peaks: sample peak and true peak as factors; a row a stem.
 */
const sectionNames = [
  "whole",
  "correlation",
  "momentary",
  "shortTerm",
  "octaves",
  "thirds",
  "moments",
  "lags",
  "peaks",
] as const;
export type SectionName = (typeof sectionNames)[number];

/** Row of a pair in either order; rows stay where they are when stems are added behind. */
export const pairIndex = (i: number, j: number): number =>
  i <= j ? (j * (j + 1)) / 2 + i : (i * (i + 1)) / 2 + j;

/** All pairs of so many stems, in the order of `pairIndex`. */
export function pairsOf(stems: number): (readonly [number, number])[] {
  return Array.from({ length: stems }, (_, j) =>
    Array.from({ length: j + 1 }, (_, i) => [i, j] as const),
  ).flat();
}

/** Rows by section, put one after the other into shared memory. */
export function packed(
  facts: Pick<Products, "rateHz" | "frames" | "stems" | "allStems">,
  rows: Readonly<Record<SectionName, readonly ArrayLike<number>[]>>,
): Products {
  const sections = { ...emptySections };
  let total = 0;
  for (const name of sectionNames) {
    sections[name] = { start: total, rowLength: rows[name][0]?.length ?? 0 };
    total += sections[name].rowLength * rows[name].length;
  }
  const values = new Float64Array(new SharedArrayBuffer(8 * total));
  for (const name of sectionNames) {
    const { start, rowLength } = sections[name];
    rows[name].forEach((row, k) => {
      values.set(row, start + k * rowLength);
    });
  }
  return { ...facts, sections, values };
}

const none: ProductSection = { start: 0, rowLength: 0 };
const emptySections: Record<SectionName, ProductSection> = {
  whole: none,
  correlation: none,
  momentary: none,
  shortTerm: none,
  octaves: none,
  thirds: none,
  moments: none,
  lags: none,
  peaks: none,
};
