import type { Figure } from "../../sound/measure/measure.js";
import { variantsOf } from "../../work/sweep/plan.js";
import type { SweepInputs } from "../../work/sweep/renderBlock.js";
import type { ResultNumber } from "../../work/sweep/results.js";
import type { SweepBlock, SweepLayout } from "../../work/sweep/sweepLayout.js";
import type { ResultIndex } from "./resultIndex.js";
import { run, type SweepPool } from "./runUnits.js";

interface RendersRun {
  readonly inputs: SweepInputs;
  readonly layout: SweepLayout;
  readonly pool: SweepPool;
  readonly index: ResultIndex;
  readonly signal?: AbortSignal | undefined;
}

/** Settings of one track. */
interface Share {
  readonly block: SweepBlock;
  readonly track: number;
  readonly routing: string;
  readonly settings: number[];
}

/**
 * Has results rendered for what only sound tells: those of one track together, shared out over the threads. What is
 * found of a result does not depend on which others are rendered with it.
 * @param onRendered  gets what was found, which the index has already
 */
export async function runRenders(
  { inputs, layout, pool, index, signal }: RendersRun,
  results: readonly ResultNumber[],
  onRendered: (setting: number, routing: string, figures: readonly Figure[]) => void,
): Promise<void> {
  const tracks = sharesOf(layout, inputs, index, results);
  // A track that is split is rendered as often: only where threads would stand idle.
  const parts = Math.ceil(pool.count / Math.max(1, tracks.length));
  const shares = tracks.flatMap((share) => split(share, parts));
  await Promise.all(
    shares.map(async (share) => {
      const places = share.settings.map((setting) => layout.places[setting]);
      const { block, track, settings, routing } = share;
      const job = { ...inputs, block, track, settings, places };
      const outcome = await run(pool, { kind: "renders", job }, signal);
      if (outcome.kind !== "renders") throw new Error("a job of renders gave none");
      for (const { setting, figures } of outcome.rendered) {
        index.addRendered(setting, routing, figures);
        onRendered(setting, routing, figures);
      }
    }),
  );
}

function sharesOf(
  layout: SweepLayout,
  { plan }: SweepInputs,
  index: ResultIndex,
  results: readonly ResultNumber[],
): Share[] {
  const shares = new Map<string, Share>();
  for (const result of results) {
    const { routing, setting } = index.keyOf(result);
    const word = plan.routings[routing];
    const unit = layout.units.find(
      ({ block, settings }) => block.family.routings.includes(word) && settings.includes(setting),
    );
    if (!unit) throw new Error("a result that no unit gives");
    const structure = unit.structureOf[unit.settings.indexOf(setting)];
    const track = trackOf(unit.block, structure, word, (each) => variantsOf(plan, each));
    const key = `${unit.blockNumber} ${track}`;
    const share = shares.get(key) ?? { block: unit.block, track, routing: word, settings: [] };
    share.settings.push(setting);
    shares.set(key, share);
  }
  return [...shares.values()];
}

/** Number of a routing's first track for a set of stems, in the order of `BlockStems.tracks`. */
function trackOf(
  { family }: SweepBlock,
  structure: number,
  routing: string,
  variants: (routing: string) => number,
): number {
  const widths = family.routings.map(variants);
  const all = widths.reduce((sum, width) => sum + width, 0);
  const before = widths.slice(0, family.routings.indexOf(routing)).reduce((sum, width) => sum + width, 0);
  return structure * all + before;
}

/** Even shares of its settings. */
function split(share: Share, parts: number): Share[] {
  return Array.from({ length: Math.min(parts, share.settings.length) }, (_, n) => ({
    ...share,
    settings: share.settings.filter((_, k) => k % parts === n),
  }));
}
