import { combOf } from "../wiring/dryPaths.js";
import { BlockStems } from "./blockStems.js";
import { type Figure, figuresOf } from "./figures.js";
import type { Unit } from "./layout.js";
import { MixAlgebra } from "./mixAlgebra.js";
import type { Products } from "./products.js";
import type { SweepInputs } from "./renderBlock.js";
import { Tuner, wiringFor } from "./tuner.js";

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
  const algebras = new Map<number, MixAlgebra>();
  const results: SweepResult[] = [];
  unit.settings.forEach((setting, n) => {
    stems.tracks.forEach(({ structure, routing, variant }, track) => {
      if (structure !== unit.structureOf[n]) return;
      const wiring = wiringFor(tuner.rigAt(unit.places[n], variant), routing);
      const algebra = algebras.get(track) ?? new MixAlgebra(products[track]);
      algebras.set(track, algebra);
      const measures = algebra.measuresOf(stems.gainsOf(track, wiring));
      const figures = figuresOf({ ...measures, comb: combOf(wiring) });
      results.push({ setting, routing, draw: variant, figures });
    });
  });
  return results;
}
