import { sidePhaseDegrees } from "../../rig/pedals/modulation.js";
import type { phaserSettings } from "../../rig/pedals/phaser.js";
import { amplified } from "./nodes.js";
import { oscillator } from "./oscillator.js";
import { perSide, type StandardModel } from "./standardModel.js";

/**
 * Octaves a second, times the stages. The two forms of filter are one while they stand still and part in proportion to
 * this; up to here noise at -17 dBFS leaves a difference under -80 dBFS at any corner (found by trying).
 */
const fastestSweep = 4;

/**
 * Phaser: two first-order all-pass stages of one corner are one BiquadFilterNode of type allpass with Q = 1/2, whose
 * poles both lie at (1 - t)/(1 + t), t = tan(pi corner/rateHz); an OscillatorNode on its detune, in cents, swings the corner.
 */
export const standardPhaser: StandardModel<typeof phaserSettings> = {
  whyNot({ feedback, stages, lfoHz, centreHz, sweepOctaves }, rateHz) {
    if (feedback !== 0) return "its loop is one frame long, and loops of standard nodes have at least 128";
    if (stages % 2 === 1)
      return "an odd stage is of first order, and the standard swings filters of second order only";
    if (centreHz * 2 ** (sweepOctaves / 2) >= 0.49 * rateHz)
      return "its sweep runs into half the sample rate";
    if (stages * lfoHz * sweepOctaves > fastestSweep)
      return "swept this fast, first-order stages and the standard's second-order ones part: they keep other states";
    return null;
  },
  wet: (pedal) => {
    const { context, settings } = pedal;
    const { lfoHz, centreHz, sweepOctaves, stages } = settings;
    return perSide(pedal, (input, side) => {
      const lfo = oscillator(context, { lfoHz, phaseDegrees: sidePhaseDegrees(settings, side) });
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
};
