import { type Products, pairIndex, type SectionName } from "./products.js";

/** Gains of the pairs, at `pairIndex`, in <sum a_i x_i, sum b_j x_j>: a_i b_j + a_j b_i, and a_i b_i. */
export function productGains(a: ArrayLike<number>, b: ArrayLike<number>, stems: number): Float64Array {
  const gains = new Float64Array((stems * (stems + 1)) / 2);
  for (let j = 0, p = 0; j < stems; j++) {
    for (let i = 0; i < j; i++) gains[p++] = a[i] * b[j] + a[j] * b[i];
    gains[p++] = a[j] * b[j];
  }
  return gains;
}

/** Entry by entry, every `hop`-th, the sum over pairs of their gain times their row; into `out`, which it fills. */
export function combine(
  { sections, values }: Products,
  name: SectionName,
  gains: Float64Array,
  out: Float64Array,
  hop = 1,
): Float64Array {
  const { start, rowLength } = sections[name];
  const rows: number[] = [];
  for (let p = 0; p < gains.length; p++) if (gains[p] !== 0) rows.push(p);
  out.fill(0);
  for (let n = 0; n < rows.length; n += rowsAtOnce) {
    // Where there are fewer, the first stands in for the rest, without gain.
    const at = (k: number) => start + (rows[n + k] ?? rows[n]) * rowLength;
    const gain = (k: number) => (n + k < rows.length ? gains[rows[n + k]] : 0);
    const [a, b, c, d, e, f] = [at(0), at(1), at(2), at(3), at(4), at(5)];
    const [g, h, i, j, l, m] = [gain(0), gain(1), gain(2), gain(3), gain(4), gain(5)];
    for (let k = 0, s = 0; k < out.length; k++, s += hop) {
      out[k] +=
        g * values[a + s] +
        h * values[b + s] +
        i * values[c + s] +
        (j * values[d + s] + l * values[e + s] + m * values[f + s]);
    }
  }
  return out;
}

/** So many rows are read in one go: `out` is gone through less often. */
const rowsAtOnce = 6;

/** What is this far below the sum of its terms' sizes is what rounding leaves of terms that cancel. */
const cancelledBelow = 1e-14;

/** As `combine`, for energies: what cancels is 0, as it is in sound. */
export function combineEnergies(
  products: Products,
  name: SectionName,
  gains: Float64Array,
  out: Float64Array,
  hop = 1,
): Float64Array {
  const { sections, values } = products;
  const { start, rowLength } = sections[name];
  combine(products, name, gains, out, hop);
  for (let k = 0; k < out.length; k++) {
    let size = 0;
    for (let p = 0; p < gains.length; p++)
      size += Math.abs(gains[p] * values[start + p * rowLength + k * hop]);
    if (out[k] < cancelledBelow * size) out[k] = 0;
  }
  return out;
}

/** Entries of a section's rows that `combine` with this hop fills. */
export function entriesOf({ sections }: Products, name: SectionName, hop = 1): number {
  return Math.ceil(sections[name].rowLength / hop);
}

/** sum(L[n + lag] R[n]) at the lags of the section, of L = sum a_i x_i and R = sum b_j x_j. */
export function combineLags(
  { sections, values, stems }: Products,
  a: ArrayLike<number>,
  b: ArrayLike<number>,
  out: Float64Array,
): Float64Array {
  const { start, rowLength } = sections.lags;
  out.fill(0);
  for (let i = 0; i < stems; i++) {
    for (let j = 0; j < stems; j++) {
      const gain = a[i] * b[j];
      if (gain === 0) continue;
      const from = start + pairIndex(i, j) * rowLength;
      // A pair that stands the other way round is read backwards.
      if (i <= j) for (let n = 0; n < rowLength; n++) out[n] += gain * values[from + n];
      else for (let n = 0; n < rowLength; n++) out[n] += gain * values[from + rowLength - 1 - n];
    }
  }
  return out;
}
