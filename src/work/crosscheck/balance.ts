import type { Rig } from "../../rig/model/rig.js";
import { drawMono } from "../../rig/routings/drawPlan.js";
import type { Plan } from "../../rig/routings/plan.js";
import type { Wiring } from "../../rig/wiring/wiring.js";
import type { Block } from "../../sound/dsp/kernel.js";
import { powerToDb } from "../../sound/dsp/units.js";
import { withOnlyUnit } from "../returns/equalWet.js";

/** Wet to dry of one unit whose return a wiring leaves open, by the second engine, and whether it is what it is to be. */
export interface CheckedBalance {
  readonly unit: string;
  /** Wet to dry where it plays into the buses; null where nothing of either arrives. */
  readonly hereDb: number | null;
  /** The same with the unit in line, at its own mix; null where in line there is no dry sound. */
  readonly inLineDb: number | null;
  /** Null where there is no rule to go by. */
  readonly withinTolerance: boolean | null;
  /** Why it was not judged. */
  readonly notJudged: "no-dry" | "bound" | null;
}

/**
 * Returns are set in steps of 0.1 dB, so that half of it is off by rights. A tenth more for units that cannot kill their
 * dry sound: their return moves what their wet sound is held against.
 */
export const balanceToleranceDb = 0.15;

/**
 * The rule of returns that are left open, tried by the second engine: E(with the unit) - E(without any) against E(without
 * any), over both sides, is what the rig in line gives. Other units' effects are silenced, as the rule has it.
 */
export class BalanceCheck {
  readonly #rig: Rig;
  readonly #second: (wiring: Wiring) => Promise<Block>;
  readonly #inLineDb = new Map<string, number | null>();

  /** @param second  renders a wiring: left and right */
  constructor(rig: Rig, second: (wiring: Wiring) => Promise<Block>) {
    this.#rig = rig;
    this.#second = second;
  }

  /** @returns one a unit whose return was measured; none where the rig states its returns */
  async of(wiring: Wiring, plan: Plan | null): Promise<readonly CheckedBalance[]> {
    const trims = Object.entries((plan && this.#rig.returnTrims?.[plan.id]) ?? {});
    const found: CheckedBalance[] = [];
    for (const [unit, { by }] of trims) {
      const hereDb = await this.#wetToDryDb(wiring, unit);
      const inLineDb = by === "no-dry" ? null : await this.#inLine(unit);
      const isJudged = by === "in-line" && inLineDb !== null;
      const withinTolerance = isJudged
        ? hereDb !== null && Math.abs(hereDb - inLineDb) <= balanceToleranceDb
        : null;
      found.push({
        unit,
        hereDb,
        inLineDb,
        withinTolerance,
        notJudged: isJudged ? null : by === "bound" ? by : "no-dry",
      });
    }
    return found;
  }

  async #inLine(unit: string): Promise<number | null> {
    const known = this.#inLineDb.get(unit);
    const inLineDb = known === undefined ? await this.#wetToDryDb(drawMono(this.#rig).wiring, unit) : known;
    this.#inLineDb.set(unit, inLineDb);
    return inLineDb;
  }

  /** Null where there is nothing of either. */
  async #wetToDryDb(wiring: Wiring, unit: string): Promise<number | null> {
    const wet = await this.#second(withOnlyUnit(wiring, unit));
    const dry = await this.#second(withOnlyUnit(wiring, null));
    let [wetEnergy, dryEnergy] = [0, 0];
    dry.forEach((channel, side) => {
      channel.forEach((x, n) => {
        dryEnergy += x * x;
        wetEnergy += (wet[side][n] - x) ** 2;
      });
    });
    return dryEnergy > 0 && wetEnergy > 0 ? powerToDb(wetEnergy / dryEnergy) : null;
  }
}
