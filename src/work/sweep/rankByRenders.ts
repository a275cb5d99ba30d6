import { Ranking } from "./ranking.js";
import type { ResultNumber, SweepResults } from "./results.js";
import type { Wishes } from "./wishes.js";

/** Renders looked at for each of the best that is wanted; beyond, wishes that take a render stay open. */
const rendersPerBest = 20;

/**
 * Ranks, and has the best rendered by themselves, until the first `best` of the order have been: a setting whose true
 * peak or decay turns out not to be as wished falls back, and the next takes its place.
 * @param render  renders settings that have not been yet, and puts what it finds into the index
 * @returns the ranking, and which results' renders it counts: the same ones however many others have been rendered
 */
export async function rankByRenders(
  index: SweepResults,
  wishes: Wishes,
  best: number,
  render: (results: readonly ResultNumber[]) => Promise<void>,
): Promise<{ ranking: Ranking; settled: ReadonlySet<ResultNumber> }> {
  const settled = new Set<ResultNumber>();
  for (;;) {
    const ranking = new Ranking(index, wishes, settled);
    const next = ranking.order.slice(0, best).filter((result) => !settled.has(result));
    if (next.length === 0 || settled.size >= rendersPerBest * best) return { ranking, settled };
    const missing = next.filter((result) => !index.rendered.has(result));
    if (missing.length > 0) await render(missing);
    for (const result of next) settled.add(result);
  }
}
