import type { BuildSheet } from "../rig/wiring/buildSheet.js";
import { money } from "../text/numbers.js";

/** What must be bought costs, in a word or two: "nothing", "EUR 175", "over EUR 45" where a price is not given, "not known". */
export function priceInShort({ parts, price, priceUnknown, currency }: BuildSheet): string {
  if (parts.every(({ toBuy }) => toBuy === 0)) return "nothing";
  if (price === null) return "not known";
  return priceUnknown.length > 0 ? `over ${money(price, currency)}` : money(price, currency);
}
