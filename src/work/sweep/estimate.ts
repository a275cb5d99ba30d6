import { takePart } from "../../sound/audio/takeSource.js";
import { mixUnit } from "./mixUnit.js";
import { type Products, packed, pairsOf } from "./products.js";
import { renderBlock, type SweepInputs } from "./renderBlock.js";
import type { SweepBlock, SweepLayout } from "./sweepLayout.js";

/** What a trial run makes of the take: from its middle, where it plays. */
const trialSeconds = 1;
const trialSettings = 24;

/**
 * About how long a sweep will take, from a second of the take rendered and a few settings mixed.
 * @param units    units of the layout that are to be done
 * @param threads  that will work on it
 * @returns seconds; other work on the machine makes it longer
 */
export function estimateSeconds(
  inputs: SweepInputs,
  layout: SweepLayout,
  units: readonly number[],
  threads: number,
): number {
  const { take, rateHz, plan } = inputs;
  const frames = Math.min(plan.frames, Math.round(trialSeconds * rateHz));
  const start = Math.max(0, Math.floor((take.length - frames) / 2));
  const trial = { ...inputs, plan: { ...plan, frames }, take: takePart(take, start, start + frames) };
  let seconds = 0;
  for (const family of layout.families) {
    const own = units.map((n) => layout.units[n]).filter(({ block }) => block.family === family);
    if (own.length === 0) continue;
    const blocks = [...new Map(own.map(({ block, blockNumber }) => [blockNumber, block])).values()];
    const structures = blocks.reduce((sum, block) => sum + block.structures.length, 0);
    const settings = own.reduce((sum, unit) => sum + unit.settings.length, 0);
    const block: SweepBlock = { family, structures: blocks[0].structures.slice(0, 1) };
    // The first run warms up the machine's compiler.
    renderBlock({ ...trial, block });
    const { result: products, seconds: rendering } = timed(() => renderBlock({ ...trial, block }));
    const perSetting = mixingSeconds(inputs, own[0], block, products);
    seconds += (structures * rendering * plan.frames) / frames + settings * perSetting;
  }
  return seconds / Math.max(1, Math.min(threads, units.length));
}

/** Seconds that one setting takes to mix, by all routings of its family, with products as long as the real ones. */
function mixingSeconds(
  { rig, plan, rateHz }: SweepInputs,
  unit: SweepLayout["units"][number],
  block: SweepBlock,
  trial: readonly Products[],
): number {
  const own = unit.structureOf.lastIndexOf(0) + 1;
  const count = Math.max(1, Math.min(trialSettings, own));
  const products = trial.map(({ stems, allStems }) => silentProducts(rateHz, plan.frames, stems, allStems));
  const few = {
    block,
    blockNumber: 0,
    settings: unit.settings.slice(0, count),
    places: unit.places.slice(0, count),
    structureOf: Array<number>(count).fill(0),
    results: count,
  };
  const mix = () =>
    mixUnit({ rig, plan, rateHz, unit: few, blockKey: `trial ${performance.now()}`, products });
  mix();
  return timed(mix).seconds / count;
}

/** Products of silence, as many as a sound of this length has. */
function silentProducts(rateHz: number, frames: number, stems: number, allStems: number): Products {
  const seconds = frames / rateHz;
  const rows = (count: number, length: number) =>
    Array.from({ length: count }, () => new Float64Array(Math.max(0, Math.floor(length))));
  const pairs = pairsOf(stems).length;
  return packed(
    { rateHz, frames, stems, allStems },
    {
      whole: rows(pairsOf(allStems).length, 1),
      correlation: rows(pairs, 10 * seconds - 3),
      momentary: rows(pairs, 100 * seconds - 39),
      shortTerm: rows(pairs, 100 * seconds - 299),
      octaves: rows(pairs, 10),
      thirds: rows(pairs, 30),
      moments: rows(pairs, 2),
      lags: rows(pairs, 2 * Math.floor(rateHz / 1000) + 1),
      peaks: rows(stems, 2),
    },
  );
}

function timed<T>(work: () => T): { result: T; seconds: number } {
  const start = performance.now();
  const result = work();
  return { result, seconds: (performance.now() - start) / 1000 };
}
