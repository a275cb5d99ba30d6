import { perChannel } from "../../sound/dsp/channels.js";
import type { SettingTable } from "../../sound/dsp/kernel.js";
import { SweptAllPass } from "../../sound/dsp/sweptAllPass.js";
import { phaseSetting, sidePhaseDegrees } from "./modulation.js";
import {
  besideDry,
  type PedalModel,
  rightPhaseDegrees,
  secondOutputBlend,
  secondOutputSettings,
} from "./pedalModel.js";

export const phaserSettings = {
  lfoHz: { default: 0.4, min: 0.02, max: 10, log: true, says: "speed of the sweep" },
  centreHz: { default: 600, min: 50, max: 4000, log: true, says: "corner of the stages at mid-sweep" },
  sweepOctaves: { default: 2, min: 0, max: 6, says: "width of the sweep, lowest corner to highest" },
  stages: { default: 4, min: 2, max: 12, whole: true, says: "all-pass stages; two make a notch" },
  feedback: {
    default: 0,
    min: -0.9,
    max: 0.9,
    says: "share of the phased sound returned to the first stage",
  },
  mix: { default: 0.5, min: 0, max: 1, says: "share of the effect; notches are deepest at 0.5" },
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
    return perChannel(use, make, rightPhaseDegrees(settings) === 0);
  },
  blend: secondOutputBlend,
  silenceMs: () => 0,
  changesInTime: true,
  nonlinear: false,
  costNs: 50,
};
