import type { PedalUse } from "../../rig/pedals/pedalModel.js";
import type { Wiring } from "../../rig/wiring/wiring.js";
import type { HeldTake } from "../../sound/audio/takeSource.js";
import { balanceMeasure } from "../../sound/measure/balance.js";
import { correlationMeasure } from "../../sound/measure/correlation.js";
import { FactsMeter } from "../../sound/measure/factsMeter.js";
import { integratedLufsMeasure } from "../../sound/measure/loudnessMeasures.js";
import type { SoundMeasures } from "../../sound/measure/measures.js";
import { sideShareMeasure } from "../../sound/measure/sideShare.js";
import { compile } from "../render/compile.js";
import { render } from "../render/render.js";
import { noTail } from "../render/tail.js";

/** Wirings that are rendered together. Plain data. */
export interface StatesJob {
  readonly wirings: readonly Wiring[];
  /** Full scale 1. */
  readonly take: HeldTake;
  readonly rateHz: number;
  readonly clips: PedalUse["clips"];
}

/** How one state sounds over the take; null where a measure is undefined. */
export type StateLevels = Pick<SoundMeasures, "integratedLufs" | "sideShare" | "correlation" | "balanceDb">;

/**
 * Renders every wiring over the take, without tail, and measures each. All are one graph: what a switch does not touch
 * is computed once, and states that sound alike are measured once.
 * @param onFrames  told the frames of the take that are done
 */
export function measureStates(
  { wirings, take, rateHz, clips }: StatesJob,
  onFrames: (frames: number) => void = () => {},
): readonly StateLevels[] {
  const graph = compile(wirings, { rateHz, clips });
  const meters = new Map<string, Meter>();
  const number = new Map<Float32Array, number>();
  for (const output of graph.outputs) if (!number.has(output)) number.set(output, number.size);
  const metered = wirings.map((_, n) => {
    const [left, right] = [graph.outputs[2 * n], graph.outputs[2 * n + 1]];
    const key = `${number.get(left)} ${number.get(right)}`;
    const meter = meters.get(key) ?? new Meter(left, right, rateHz);
    meters.set(key, meter);
    return meter;
  });
  render(graph, {
    take,
    rateHz,
    tail: noTail,
    watched: 0,
    sink: (_outputs, frames) => {
      for (const meter of meters.values()) meter.push(frames);
    },
    onFrames,
  });
  return metered.map((meter) => meter.result());
}

class Meter {
  readonly #left: Float32Array;
  readonly #right: Float32Array;
  readonly #meter: FactsMeter;
  constructor(left: Float32Array, right: Float32Array, rateHz: number) {
    this.#left = left;
    this.#right = right;
    this.#meter = new FactsMeter(rateHz, ["whole", "loudness"]);
  }
  push(frames: number): void {
    this.#meter.push(this.#left, this.#right, frames);
  }
  result(): StateLevels {
    const facts = this.#meter.facts();
    return {
      integratedLufs: integratedLufsMeasure.find(facts).value,
      sideShare: sideShareMeasure.find(facts).value,
      correlation: correlationMeasure.find(facts).value,
      balanceDb: balanceMeasure.find(facts).value,
    };
  }
}
