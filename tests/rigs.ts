import type { Jacks, Pedal, PlaysInto, Rig } from "../src/rig/model/rig.js";
import { pedalModels } from "../src/rig/pedals/models.js";
import { defaultsOf, type SettingValue } from "../src/sound/dsp/kernel.js";

/** A pedal with every default, changed as told. */
export function pedal(
  name: string,
  model: string,
  jacks: Jacks,
  settings: Record<string, SettingValue> = {},
  rest: Partial<Pedal> = {},
): Pedal {
  return {
    name,
    model,
    jacks,
    settings: { ...defaultsOf(pedalModels[model].settings), ...settings },
    supply: null,
    size: null,
    price: null,
    latencyMs: 0,
    levelDb: 0,
    invertsPolarity: false,
    canGoFullyWet: true,
    dryLeakDb: -12,
    whenOff: "true-bypass",
    hasFootswitch: true,
    ...noJackFacts,
    ...rest,
  };
}

export const noJackFacts = { inputOhms: null, outputOhms: null, maxInputDbu: null, maxOutputDbu: null };
const noFacts = { price: null, supply: null, size: null, ...noJackFacts };

/** A rig of these pedals with every default, changed as told. */
export function rigOf(pedals: readonly Pedal[], rest: Partial<Rig> = {}): Rig {
  return {
    name: "Test rig",
    take: null,
    playsInto: "stereo-desk" satisfies PlaysInto,
    pedals,
    onHand: [],
    boxes: { splitter: noFacts, "summing-box": noFacts, mixer: noFacts },
    currency: "EUR",
    mixer: { dryDb: 0, returnDb: null, returnPan: 0 },
    reference: null,
    instrument: { outputOhms: null },
    destination: { inputOhms: null, maxInputDbu: null },
    cables: { instrumentMetres: 6, patchMetres: 0.3, outputMetres: 6, picofaradsPerMetre: 100 },
    stereoUnit: {},
    secondUnit: {},
    wirings: {},
    ...rest,
  };
}

/** Tremolo panner, then a mono delay: a split and a unit, both with closed forms. */
export const simpleRig = (rest: Partial<Rig> = {}, unit: Partial<Pedal> = {}): Rig =>
  rigOf(
    [
      pedal("Swing", "tremolo", "mono-to-stereo", { spreadDegrees: 180 }),
      pedal("Echo", "delay", "mono", { mix: 0.4, delayMs: 200, feedback: 0.3 }, unit),
    ],
    rest,
  );
