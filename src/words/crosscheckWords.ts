import { count } from "../text/numbers.js";
import { ended } from "../text/words.js";
import type { CrosscheckedRouting } from "../work/crosscheck/crosscheck.js";

/** What was compared with what, in words. @param against who rendered the standard nodes */
export const comparedWords = (against: string): string =>
  `Each routing twice, tail included: by splitsum's engine, and as a graph of standard nodes (W3C Web Audio API) by ${against}. Swinging delays are read by straight lines in both, as the standard has it; elsewhere splitsum reads them by cubics. Difference of the two, a full-scale sine at 0:`;

/** What stands behind a row: what the routing may differ by hangs on it. */
export const kindWords = ({ timeInvariant, withinTarget }: CrosscheckedRouting): string =>
  `${timeInvariant ? "nothing swings" : "something swings"}${withinTarget ? "" : ", MISSED"}`;

/** What was handed over, in sentences; none where every box was made of standard nodes. */
export function handedWords(routings: readonly CrosscheckedRouting[]): readonly string[] {
  const reasons = [...new Set(routings.flatMap(({ handedOver }) => handedOver))];
  return reasons.length === 0
    ? []
    : [
        "These are no standard nodes: splitsum's own sound stands in their place, and all around them is judged.",
        ...reasons.map(ended),
      ];
}

/** Reasons for which routings were not compared, each with the routings that share it. */
export function skippedByReason(
  routings: readonly CrosscheckedRouting[],
): readonly { readonly reason: string; readonly routings: readonly CrosscheckedRouting[] }[] {
  const byReason = new Map<string, CrosscheckedRouting[]>();
  for (const routing of routings) {
    const { skipped } = routing;
    if (skipped !== null) byReason.set(skipped, [...(byReason.get(skipped) ?? []), routing]);
  }
  return [...byReason].map(([reason, sharing]) => ({ reason, routings: sharing }));
}

export function verdictWords(routings: readonly CrosscheckedRouting[]): string {
  const compared = routings.filter(({ skipped }) => skipped === null);
  const missed = compared.filter(({ withinTarget }) => !withinTarget).length;
  if (compared.length === 0) return "Nothing could be compared.";
  const of = `${count(compared.length, "routing")} compared`;
  return missed === 0
    ? `${of}, all within what they may differ.`
    : `${of}, ${missed} further apart than they may be.`;
}
