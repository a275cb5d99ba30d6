/** From the least to the most. */
export interface Range {
  readonly least: number;
  readonly most: number;
}

/** Of figures that all exist; null where one does not. */
export function rangeOf(values: readonly (number | null)[]): Range | null {
  const known = values.filter((value) => value !== null);
  return known.length < values.length || known.length === 0
    ? null
    : { least: Math.min(...known), most: Math.max(...known) };
}
