import { kernelPerChannel, type MonoKernel } from "../../sound/dsp/channels.js";
import type { SettingTable } from "../../sound/dsp/kernel.js";
import { dbToGain } from "../../sound/dsp/units.js";
import { amplified } from "../../sound/standard/nodes.js";
import { alwaysNear, perSide } from "../../sound/standard/standardModel.js";
import { type PedalModel, wholeSound } from "./pedalModel.js";

export const boostSettings = {
  gainDb: { isMain: true, default: 6, min: -30, max: 30, says: "gain" },
} as const satisfies SettingTable;

/** A clean boost: out = 10^(gainDb/20) in, on every channel. No headroom limit. Source: definition of the decibel. */
export const boost: PedalModel<typeof boostSettings> = {
  kind: "Boost",
  plural: "boosts",
  settings: boostSettings,
  ...wholeSound,
  kernel: ({ gainDb }, use) => kernelPerChannel(use, () => new Gain(dbToGain(gainDb)), true),
  directGain: ({ gainDb }) => dbToGain(gainDb),
  silenceMs: () => 0,
  changesInTime: false,
  nonlinear: false,
  isFilter: () => true,
  isMeantToBeLouder: true,
  /** Boost: a GainNode. */
  standard: {
    ...alwaysNear,
    wet: (pedal) =>
      perSide(pedal, (input) => amplified(pedal.context, input, dbToGain(pedal.settings.gainDb))),
  },
  costNs: 5,
};

class Gain implements MonoKernel {
  readonly #gain: number;
  constructor(gain: number) {
    this.#gain = gain;
  }
  process(input: Float32Array, output: Float32Array, frames: number): void {
    const gain = this.#gain;
    for (let n = 0; n < frames; n++) output[n] = gain * input[n];
  }
}
