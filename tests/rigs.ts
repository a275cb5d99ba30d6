import type { Asks, Instrument, Jacks, Pedal, PlaysInto, Rig, SoldBox } from "../src/rig/model/rig.js";
import { pedalModels } from "../src/rig/pedals/models.js";
import type { PedalBox } from "../src/rig/wiring/wiring.js";
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
    dryPath: "crossfade",
    dryLeakDb: -12,
    whenOff: "true-bypass",
    hasFootswitch: true,
    alternatives: [],
    ...noJackFacts,
    ...rest,
  };
}

/** A pedal in a wiring, on, with one input and one output, changed as told. */
export const pedalBox = (id: string, of: Pedal, rest: Partial<PedalBox> = {}): PedalBox => ({
  kind: "pedal",
  id,
  label: of.name,
  pedal: of,
  inputs: 1,
  outputs: 1,
  fullyWet: false,
  on: true,
  wetMuted: false,
  isUnit: false,
  ...rest,
});

const noJackFacts = { inputOhms: null, outputOhms: null, maxInputDbu: null, maxOutputDbu: null };

/** A box as sold, of whatever size unless told. */
export const soldBox = (rest: Partial<SoldBox> = {}): SoldBox => ({
  jacks: null,
  mutes: false,
  price: null,
  supply: null,
  size: null,
  ...noJackFacts,
  ...rest,
});

export const noAsks: Asks = {
  stereo: null,
  order: [],
  sameUnit: [],
  oneOfEach: false,
  bothSides: false,
  spendAtMost: null,
  extraBoxesAtMost: null,
  outletsAtMost: null,
  milliampsAtMost: null,
  boardCm2AtMost: null,
  monoLossDbAtMost: null,
  first: ["width", "cost", "boxes", "monoLoss"],
};

/** An instrument of which nothing is known, changed as told. */
export const instrument = (rest: Partial<Instrument> = {}): Instrument => ({
  outputOhms: null,
  outputs: 1,
  pickup: null,
  henries: null,
  picofarads: null,
  volume: null,
  tone: null,
  ...rest,
});

/** A rig of these pedals with every default, changed as told. */
export function rigOf(pedals: readonly Pedal[], rest: Partial<Rig> = {}): Rig {
  return {
    name: "Test rig",
    take: null,
    takeInto: { ohms: null, picofarads: null },
    playsInto: "stereo-desk" satisfies PlaysInto,
    pedals,
    onHand: [],
    boxes: { splitter: [soldBox()], "summing-box": [soldBox()], mixer: [soldBox()] },
    currency: "EUR",
    mixer: { dryDb: 0, returnDb: null, returnPan: 0 },
    reference: null,
    instrument: instrument(),
    destination: { inputOhms: null, maxInputDbu: null },
    cables: { instrumentMetres: 6, patchMetres: 0.3, outputMetres: 6, picofaradsPerMetre: 100 },
    stereoUnit: {},
    secondUnit: {},
    wirings: {},
    places: {},
    asks: noAsks,
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
