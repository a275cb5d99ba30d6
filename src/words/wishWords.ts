import { trimmed } from "../text/numbers.js";
import { wordingOf } from "../work/sweep/figures.js";
import { type Comparison, readWishes } from "../work/sweep/wishes.js";

/** Wishes in words: `sideShare>=0.2` is "side share at least 20 % of the energy". */
export const wishWords = (want: readonly string[]): readonly string[] =>
  readWishes({ want, most: [], least: [] }).want.map(({ measure, is, limit }) => {
    const { name, unit, format } = wordingOf(measure);
    const shown = format === "percent" ? 100 * limit : limit;
    // A unit with digits is a range, "-1 to 1".
    const behind = unit === "" || /\d/.test(unit) ? "" : ` ${unit}`;
    return `${name} ${comparisonWords[is]} ${trimmed(shown, 6)}${behind}`;
  });

const comparisonWords: Readonly<Record<Comparison, string>> = {
  ">=": "at least",
  "<=": "at most",
  ">": "above",
  "<": "below",
};
