import { BlockStems } from "./blockStems.js";
import { type Figure, figuresOf } from "./figures.js";
import type { Unit } from "./layout.js";
import { MixAlgebra } from "./mixAlgebra.js";
import type { Products } from "./products.js";
import type { SweepInputs } from "./renderBlock.js";
import { TrackMixes } from "./trackMixes.js";
import { Tuner } from "./tuner.js";

export interface MixUnitJob extends Omit<SweepInputs, "take" | "clips"> {
  readonly unit: Unit;
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

/** Measures every setting of a unit by mixing its stems' products: no sound is touched. */
export function mixUnit({ rig, plan, rateHz, unit, products }: MixUnitJob): SweepResult[] {
  const tuner = new Tuner(rig, plan);
  const stems = new BlockStems(plan, unit.block, tuner, { rateHz });
  const results: SweepResult[] = [];
  stems.tracks.forEach(({ structure, routing, variant }, track) => {
    const settings = [...unit.settings.keys()].filter((n) => unit.structureOf[n] === structure);
    if (settings.length === 0) return;
    const algebra = new MixAlgebra(products[track]);
    const mixes = new TrackMixes(plan, unit.block, stems, track, tuner);
    for (const n of settings) {
      const { gains, comb } = mixes.at(unit.places[n]);
      const figures = figuresOf({ ...algebra.measuresOf(gains), comb });
      results.push({ setting: unit.settings[n], routing, draw: variant, figures });
    }
  });
  return results;
}
