/**
 * Percentile by nearest rank: element floor((n - 1) * percent / 100 + 0.5), from 0, of the values in rising order.
 *
 * @param values   at least one, in any order; they are reordered
 * @param percent  0 to 100
 * Source: EBU Tech 3342 v4 (2023), the program of its Annex.
 */
export function percentile(values: Float64Array, percent: number): number {
  return select(values, Math.floor(((values.length - 1) * percent) / 100 + 0.5));
}

/**
 * The value at place k, from 0, of the values in rising order; sorting them all would take several times as long.
 * Source: C. A. R. Hoare, "Algorithm 65: Find", Communications of the ACM 4(7), 1961.
 */
function select(values: Float64Array, k: number): number {
  let low = 0;
  let high = values.length - 1;
  while (low < high) {
    const pivot = values[(low + high) >> 1];
    let i = low;
    let j = high;
    while (i <= j) {
      while (values[i] < pivot) i++;
      while (values[j] > pivot) j--;
      if (i > j) break;
      const held = values[i];
      values[i++] = values[j];
      values[j--] = held;
    }
    if (k <= j) high = j;
    else if (k >= i) low = i;
    else break;
  }
  return values[k];
}

let room = new Float64Array(0);

/** Memory for values to be reordered in, kept from call to call: thousands of mixes take none. Good until the next call. */
export function scratch(length: number): Float64Array {
  if (room.length < length) room = new Float64Array(2 * length);
  return room.subarray(0, length);
}
