import { jackChoices, type Pedal, playsIntoChoices, type Rig } from "../../../src/rig/model/rig.js";
import { pedalModels } from "../../../src/rig/pedals/models.js";
import type { SettingValue } from "../../../src/sound/dsp/kernel.js";
import { pedal, rigOf } from "../../rigs.js";

/** Numbers from 0 up to 1: a linear congruential generator, constants of Numerical Recipes (1992), ranqd1. */
function randomFrom(seed: number): () => number {
  let state = (seed * 2_654_435_761) >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}

const models = Object.keys(pedalModels).filter((model) => model !== "response");

/** A rig of one to `most` pedals of any model and jacks, into any destination; the same for the same seed. */
export function randomRig(seed: number, most = 7): Rig {
  const random = randomFrom(seed);
  const any = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)];
  const pedals = Array.from({ length: 1 + Math.floor(random() * most) }, (_, n): Pedal => {
    const model = any(models);
    const mix: Record<string, SettingValue> =
      "mix" in pedalModels[model].settings ? { mix: Math.round(random() * 90) / 100 } : {};
    const levelDb = random() < 0.3 ? Math.round(random() * 12) - 6 : 0;
    return pedal(`Pedal ${n + 1}`, model, any([...jackChoices, "mono"]), mix, { levelDb });
  });
  const own = any(pedals);
  const other = "mix" in own.settings ? { [own.name]: { mix: 0.5 } } : {};
  return rigOf(pedals, {
    playsInto: any(playsIntoChoices),
    mixer: {
      dryDb: any([0, -3]),
      returnDb: any([null, null, -8]),
      returnPan: any([0, 0, -0.5]),
    },
    secondUnit: other,
    stereoUnit: other,
  });
}
