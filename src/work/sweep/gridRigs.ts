import { type Knob, knobsOf } from "../../rig/knobs/knobs.js";
import type { Rig } from "../../rig/model/rig.js";
import { wiringOf } from "../../rig/routings/routingsOf.js";
import type { Wiring } from "../../rig/wiring/wiring.js";
import type { SettingValue } from "../../sound/dsp/kernel.js";
import { drawnSecondUnits } from "./draws.js";
import { settingsAt } from "./grid.js";
import type { SweepPlan } from "./plan.js";

/** Sets a rig's knobs and draws its wirings. */
export class GridRigs {
  readonly #rig: Rig;
  readonly #plan: Pick<SweepPlan, "groups" | "seed" | "tolerance">;
  readonly #knobs: ReadonlyMap<string, Knob>;
  /** Knobs that are varied, in the order of the rig: what a second unit says for itself comes after the first. */
  readonly #varied: readonly Knob[];

  constructor(rig: Rig, plan: Pick<SweepPlan, "groups" | "seed" | "tolerance">) {
    const { sweep: _sweep, ...plain } = rig;
    this.#rig = plain;
    this.#plan = plan;
    this.#knobs = new Map(knobsOf(rig).map((knob) => [knob.path, knob]));
    const varied = new Set(plan.groups.flat().map(({ path }) => path));
    this.#varied = [...this.#knobs.values()].filter(({ path }) => varied.has(path));
  }

  /** The rig with varied knobs set; the rest stay. */
  turned(settings: Readonly<Record<string, SettingValue>>): Rig {
    return this.#varied.reduce(
      (rig, { path, turn }) => (path in settings ? turn(rig, settings[path]) : rig),
      this.#rig,
    );
  }

  /** True for a knob that takes whole numbers only. */
  isWhole(path: string): boolean {
    const setting = this.#knobs.get(path)?.setting;
    return setting !== undefined && "min" in setting && (setting.whole ?? false);
  }

  /** The rig at a place of the grid; `variant` 0 as it is, else with the second units of that draw. */
  rigAt(place: number, variant: number): Rig {
    return this.withVariant(this.turned(settingsAt(this.#plan.groups, place)), variant);
  }

  withVariant(rig: Rig, variant: number): Rig {
    const { tolerance, seed } = this.#plan;
    if (variant === 0 || tolerance === null) return rig;
    return drawnSecondUnits(rig, { percent: tolerance.percent, seed, draw: variant });
  }
}

/** @throws Error when the routing is not possible with this rig: a plan names only possible ones */
export function wiringFor(rig: Rig, routing: string): Wiring {
  const wiring = wiringOf(rig, routing);
  if (!wiring) throw new Error(`routing "${routing}" is not possible with this rig`);
  return wiring;
}
