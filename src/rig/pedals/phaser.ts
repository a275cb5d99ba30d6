import { kernelPerChannel } from "../../sound/dsp/channels.js";
import type { SettingTable } from "../../sound/dsp/kernel.js";
import { SweptAllPass } from "../../sound/dsp/sweptAllPass.js";
import { sweptFilters } from "../../sound/standard/nearness.js";
import { amplified } from "../../sound/standard/nodes.js";
import { perSide } from "../../sound/standard/standardModel.js";
import { swing } from "../../sound/standard/swing.js";
import { phaseSetting, sidePhaseDegrees } from "./modulation.js";
import {
  besideDry,
  type PedalModel,
  rightPhaseDegrees,
  secondOutputBlend,
  secondOutputSettings,
} from "./pedalModel.js";

export const phaserSettings = {
  lfoHz: { isMain: true, default: 0.4, min: 0.02, max: 10, log: true, says: "speed of the sweep" },
  centreHz: { default: 600, min: 50, max: 4000, log: true, says: "corner of the stages at mid-sweep" },
  sweepOctaves: {
    isMain: true,
    default: 2,
    min: 0,
    max: 6,
    says: "width of the sweep, lowest corner to highest",
  },
  stages: { default: 4, min: 2, max: 12, whole: true, says: "all-pass stages; two make a notch" },
  feedback: {
    default: 0,
    min: -0.9,
    max: 0.9,
    says: "share of the phased sound returned to the first stage",
  },
  mix: {
    isMain: true,
    default: 0.5,
    min: 0,
    max: 1,
    says: "share of the effect; notches are deepest at 0.5",
  },
  ...secondOutputSettings,
  ...phaseSetting,
} as const satisfies SettingTable;

/**
 * Phaser: the sound through N first-order all-pass stages of one corner, which swings in octaves about centreHz:
 * corner = centreHz 2^(sweepOctaves/2 sin(2 pi lfoHz t)). Beside the dry sound (mix 0.5, no feedback) notches stand
 * where the stages turn by an odd number of half circles, k = 1 .. N/2 (an odd N has one more, at half the rate):
 *
 *     tan(pi f/rateHz) = tan(pi corner/rateHz) tan((2k - 1) pi / (2N))
 *
 * Source: J. O. Smith, Physical Audio Signal Processing, "Phasing with first-order allpass filters"; the closed form
 * follows from the phase of one stage, -2 atan(f/corner), by the bilinear transform. Feedback: common practice, no source.
 */
export const phaser: PedalModel<typeof phaserSettings> = {
  kind: "Phaser",
  plural: "phasers",
  settings: phaserSettings,
  ...besideDry,
  kernel(settings, use) {
    const { rateHz } = use;
    const make = (side: 0 | 1) =>
      new SweptAllPass({ ...settings, rateHz, phaseDegrees: sidePhaseDegrees(settings, side) });
    return kernelPerChannel(use, make, rightPhaseDegrees(settings) === 0);
  },
  blend: secondOutputBlend,
  silenceMs: () => 0,
  changesInTime: true,
  nonlinear: false,
  isFilter: ({ sweepOctaves }) => sweepOctaves === 0,
  /**
   * Phaser: two first-order all-pass stages of one corner are one BiquadFilterNode of type allpass with Q = 1/2, whose
   * poles both lie at (1 - t)/(1 + t), t = tan(pi corner/rateHz); the swing on its detune, in cents, moves the corner.
   */
  standard: {
    whyNot(settings, rateHz, { holdsFilters }) {
      const { feedback, stages, centreHz, sweepOctaves } = settings;
      if (feedback !== 0) return "its loop is one frame long, and loops of standard nodes have at least 128";
      if (stages % 2 === 1)
        return "an odd stage is of first order, and the standard swings filters of second order only";
      if (centreHz * 2 ** (sweepOctaves / 2) >= 0.49 * rateHz)
        return "its sweep runs into half the sample rate";
      if (holdsFilters && sweepOctaves > 0) return "here a filter's corner moves in steps of 128 frames";
      if (sweptFilters(settings).library > leastNearDb)
        return "swept this fast, first-order stages and the standard's second-order ones part: they keep other states";
      return null;
    },
    nearness: sweptFilters,
    wet: (pedal) => {
      const { context, settings, frames } = pedal;
      const { lfoHz, centreHz, sweepOctaves, stages } = settings;
      return perSide(pedal, (input, side) => {
        const lfo = swing(context, { lfoHz, phaseDegrees: sidePhaseDegrees(settings, side), frames });
        const cents = amplified(context, lfo, 600 * sweepOctaves);
        let sound = input;
        for (let pair = 0; pair < stages / 2; pair++) {
          const node = context.createBiquadFilter();
          node.type = "allpass";
          node.frequency.value = centreHz;
          node.Q.value = 0.5;
          cents.connect(node.detune);
          sound.connect(node);
          sound = node;
        }
        return sound;
      });
    },
  },
  costNs: 50,
};

/** Where the two forms of filter part by more than this, in dB against the sound, the check would tell too little. Chosen, no source. */
const leastNearDb = -60;
