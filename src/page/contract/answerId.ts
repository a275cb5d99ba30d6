import type { Bench } from "./bench.js";
import type { PageData } from "./pageData.js";

/**
 * The wiring to build: over all takes while the rig is the one that was compared on them, else on the take that is heard.
 * Null where there is none.
 */
export function answerIdOf(
  { desk, report }: Pick<Bench, "desk" | "report">,
  { overTakes }: Pick<PageData, "overTakes">,
): string | null {
  if (overTakes && desk.isAsItCame) return overTakes.plan;
  return report?.answer.plan?.id ?? null;
}
