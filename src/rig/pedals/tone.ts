import { BiquadChain } from "../../sound/dsp/biquad.js";
import { highShelf, lowShelf } from "../../sound/dsp/biquadDesign.js";
import { kernelPerChannel } from "../../sound/dsp/channels.js";
import type { SettingTable } from "../../sound/dsp/kernel.js";
import { biquads } from "../../sound/standard/nearness.js";
import { filtered } from "../../sound/standard/nodes.js";
import { always, perSide } from "../../sound/standard/standardModel.js";
import { type PedalModel, wholeSound } from "./pedalModel.js";

export const toneSettings = {
  bassDb: { isMain: true, default: 0, min: -18, max: 18, says: "gain of the low shelf" },
  bassHz: { default: 200, min: 40, max: 1000, log: true, says: "middle of the low shelf's slope" },
  trebleDb: { isMain: true, default: 0, min: -18, max: 18, says: "gain of the high shelf" },
  trebleHz: { default: 2500, min: 500, max: 12000, log: true, says: "middle of the high shelf's slope" },
} as const satisfies SettingTable;

/**
 * Tone controls: a low shelf and a high shelf of slope 1, one after the other, on every channel. Each gives half of its
 * dB at its own frequency and all of it far beyond.
 * Source: R. Bristow-Johnson, "Cookbook formulae for audio EQ biquad filter coefficients", lowShelf and highShelf, S = 1.
 */
export const tone: PedalModel<typeof toneSettings> = {
  kind: "Tone control",
  plural: "tone controls",
  settings: toneSettings,
  ...wholeSound,
  kernel({ bassDb, bassHz, trebleDb, trebleHz }, use) {
    const { rateHz } = use;
    const sections = [
      lowShelf({ cutoffHz: bassHz, gainDb: bassDb, rateHz }),
      highShelf({ cutoffHz: trebleHz, gainDb: trebleDb, rateHz }),
    ];
    return kernelPerChannel(use, () => new BiquadChain(sections), true);
  },
  silenceMs: () => 0,
  changesInTime: false,
  nonlinear: false,
  isFilter: () => true,
  /** Tone control: two BiquadFilterNodes; the standard's shelves have slope 1. */
  standard: {
    whyNot: always,
    nearness: ({ bassHz, trebleHz }, rateHz) => biquads(Math.min(bassHz, trebleHz), rateHz),
    wet: (pedal) => {
      const { bassDb, bassHz, trebleDb, trebleHz } = pedal.settings;
      return perSide(pedal, (input) =>
        filtered(pedal.context, input, [
          { type: "lowshelf", frequencyHz: bassHz, gainDb: bassDb },
          { type: "highshelf", frequencyHz: trebleHz, gainDb: trebleDb },
        ]),
      );
    },
  },
  costNs: 5,
};
