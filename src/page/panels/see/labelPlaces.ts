/**
 * A place for each of a column of labels, in their order, `apart` from the next: pushed up from the bottom where they
 * crowd, and down again where they would leave the top.
 *
 * @param wanted  where each would stand best, rising
 */
export function labelPlaces(wanted: readonly number[], apart: number, top: number): readonly number[] {
  const places: number[] = [];
  for (const y of wanted) places.push(Math.max(y, (places.at(-1) ?? -apart) + apart));
  for (let n = places.length - 1; n >= 0; n--)
    places[n] = Math.min(places[n], (places[n + 1] ?? top + apart) - apart);
  return places;
}
