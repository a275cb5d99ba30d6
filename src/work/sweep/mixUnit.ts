import type { Figure } from "../../sound/measure/measure.js";
import { BlockStems } from "./blockStems.js";
import { figuresOf } from "./figures.js";
import { GridRigs } from "./gridRigs.js";
import { MixAlgebra } from "./mixAlgebra.js";
import type { Products } from "./products.js";
import type { SweepInputs } from "./renderBlock.js";
import type { Unit } from "./sweepLayout.js";
import { TrackMixes } from "./trackMixes.js";

export interface MixUnitJob extends Omit<SweepInputs, "take" | "clips"> {
  readonly unit: Unit;
  /** Tells the unit's block from those of this and any other sweep. */
  readonly blockKey: string;
  /** Of the unit's block, one entry a track. */
  readonly products: readonly Products[];
}

/** What is known of one routing at one setting. */
export interface SweepResult {
  readonly setting: number;
  readonly routing: string;
  /** 0 as the rig has it; else the second units of that draw. */
  readonly draw: number;
  /** In the order of `figureNames`. */
  readonly figures: readonly Figure[];
}

/**
 * Measures every setting of a unit by mixing its stems' products: no sound is touched.
 * @param onResult  told before each result; throw to stop
 */
export function mixUnit(job: MixUnitJob, onResult: () => void = () => {}): SweepResult[] {
  const { unit, products } = job;
  const { tracks, mixesOf } = mixerFor(job);
  const results: SweepResult[] = [];
  tracks.forEach(({ structure, routing, variant }, track) => {
    const settings = [...unit.settings.keys()].filter((n) => unit.structureOf[n] === structure);
    if (settings.length === 0) return;
    const algebra = new MixAlgebra(products[track]);
    const mixes = mixesOf(track);
    for (const n of settings) {
      onResult();
      const { gains, comb } = mixes.at(unit.places[n]);
      const figures = figuresOf({ ...algebra.factsOf(gains), comb });
      results.push({ setting: unit.settings[n], routing, draw: variant, figures });
    }
  });
  return results;
}

/** How the settings of a block are mixed. */
interface BlockMixer {
  readonly block: string;
  readonly tracks: BlockStems["tracks"];
  readonly mixesOf: (track: number) => TrackMixes;
}

/** The last one is kept: a thread is mostly given units of one block after the other. What it gives is the same anew. */
let kept: BlockMixer | null = null;

function mixerFor({ rig, plan, rateHz, unit, blockKey }: MixUnitJob): BlockMixer {
  if (kept?.block === blockKey) return kept;
  const gridRigs = new GridRigs(rig, plan);
  const stems = new BlockStems(plan, unit.block, gridRigs, { rateHz });
  const mixes = new Map<number, TrackMixes>();
  const mixesOf = (track: number) => {
    const own = mixes.get(track) ?? new TrackMixes(plan, unit.block, stems, track, gridRigs);
    mixes.set(track, own);
    return own;
  };
  kept = { block: blockKey, tracks: stems.tracks, mixesOf };
  return kept;
}
