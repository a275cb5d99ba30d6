import { didYouMean } from "../../text/nearest.js";
import { andList, quoted } from "../../text/words.js";

/** One sentence on a name that is no mono unit's: of a pedal that has no place to choose, or of none at all. */
export function noUnit(
  name: string,
  pedals: readonly { readonly name: string | null }[],
  units: readonly string[],
): string {
  const is = pedals.some((pedal) => pedal.name === name)
    ? "has no place to choose: it is no mono unit after the split"
    : "is no pedal of this rig";
  const have =
    units.length > 0
      ? `its mono units are ${andList(units.map((unit) => quoted(unit)))}`
      : "it has no mono unit";
  return `${quoted(name)} ${is}; ${have}.${didYouMean(name, units)}`;
}
