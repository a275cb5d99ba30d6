import { BiquadChain } from "../../sound/dsp/biquad.js";
import { highPass, lowPass, peaking } from "../../sound/dsp/biquadDesign.js";
import { kernelPerChannel } from "../../sound/dsp/channels.js";
import type { SettingTable } from "../../sound/dsp/kernel.js";
import { gainToDb } from "../../sound/dsp/units.js";
import { biquads } from "../../sound/standard/nearness.js";
import { filtered } from "../../sound/standard/nodes.js";
import { always, perSide } from "../../sound/standard/standardModel.js";
import { type PedalModel, wholeSound } from "./pedalModel.js";

export const speakerSettings = {
  resonanceHz: { default: 90, min: 50, max: 200, log: true, says: "resonance of the cone in its box" },
  presenceHz: { default: 2800, min: 1500, max: 5000, log: true, says: "middle of the cone's break-up peak" },
  presenceDb: { isMain: true, default: 5, min: 0, max: 12, says: "height of that peak" },
  rollOffHz: {
    isMain: true,
    default: 5000,
    min: 2500,
    max: 8000,
    log: true,
    says: "where the treble is down by 3 dB",
  },
} as const satisfies SettingTable;

/** Q of the high-pass at the resonance: a bump of about 3 dB. */
const resonanceQ = 1.3;
const presenceQ = 1.1;
/** Qs of the four second-order parts of an eighth-order Butterworth low-pass: 1/(2 cos((2k - 1) pi/16)). */
const butterworthQs = [1, 3, 5, 7].map((odd) => 1 / (2 * Math.cos((odd * Math.PI) / 16)));

/**
 * What a guitar loudspeaker in a box does to tone: nothing much below the cone's resonance (12 dB an octave, with a bump
 * on it), a peak in the upper middle, and a steep end above about 5 kHz (48 dB an octave). No room, no microphone,
 * no distortion. All of it is common practice, no source; the filters are those of `biquadDesign.ts`.
 */
export const speaker: PedalModel<typeof speakerSettings> = {
  kind: "Speaker",
  plural: "speakers",
  settings: speakerSettings,
  ...wholeSound,
  kernel({ resonanceHz, presenceHz, presenceDb, rollOffHz }, use) {
    const { rateHz } = use;
    const sections = [
      highPass({ cutoffHz: resonanceHz, q: resonanceQ, rateHz }),
      peaking({ cutoffHz: presenceHz, q: presenceQ, gainDb: presenceDb, rateHz }),
      ...butterworthQs.map((q) => lowPass({ cutoffHz: rollOffHz, q, rateHz })),
    ];
    return kernelPerChannel(use, () => new BiquadChain(sections), true);
  },
  silenceMs: () => 0,
  changesInTime: false,
  nonlinear: false,
  isFilter: () => true,
  /** Speaker: six BiquadFilterNodes; the standard has the Q of low- and high-pass in dB. */
  standard: {
    whyNot: always,
    nearness: ({ resonanceHz }, rateHz) => biquads(resonanceHz, rateHz),
    wet: (pedal) => {
      const { resonanceHz, presenceHz, presenceDb, rollOffHz } = pedal.settings;
      return perSide(pedal, (input) =>
        filtered(pedal.context, input, [
          { type: "highpass", frequencyHz: resonanceHz, q: gainToDb(resonanceQ) },
          { type: "peaking", frequencyHz: presenceHz, q: presenceQ, gainDb: presenceDb },
          ...butterworthQs.map((q) => ({ type: "lowpass", frequencyHz: rollOffHz, q: gainToDb(q) }) as const),
        ]),
      );
    },
  },
  costNs: 5,
};
