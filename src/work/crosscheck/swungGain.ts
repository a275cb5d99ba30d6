import type { tremoloSettings } from "../../rig/pedals/tremolo.js";
import { amplified } from "./nodes.js";
import { oscillator } from "./oscillator.js";
import { always, perSide, type StandardModel } from "./standardModel.js";
import type { StandardContext, StandardNode } from "./webAudio.js";

/**
 * Tremolo: an OscillatorNode on the gain of a GainNode; under the equal-power law by way of a WaveShaperNode that makes
 * the cosine of the angle.
 */
export const standardTremolo: StandardModel<typeof tremoloSettings> = {
  whyNot: always,
  wet: (pedal) => {
    const { context, settings } = pedal;
    const { lfoHz, depth, wave, law, phaseDegrees, secondOutput, spreadDegrees } = settings;
    return perSide(pedal, (input, side) => {
      const gain = amplified(context, input, law === "gain" ? 1 - depth / 2 : 0);
      if (law === "equal-power") {
        const swing = oscillator(context, { lfoHz, wave, phaseDegrees });
        const angle = ((side === 0 ? 1 : -1) * depth * Math.PI) / 4;
        shaped(context, swing, (w) => Math.cos(Math.PI / 4 + angle * w)).connect(gain.gain);
      } else {
        const behind = side * (secondOutput === "inverted-wet" ? 180 : spreadDegrees);
        const swing = oscillator(context, { lfoHz, wave, phaseDegrees: phaseDegrees - behind });
        amplified(context, swing, depth / 2).connect(gain.gain);
      }
      return gain;
    });
  },
};

/** So many points that straight lines between them are within 1e-9 of a cosine. */
const curvePoints = 16_385;

/** A signal from -1 to 1 through a curve. */
function shaped(context: StandardContext, input: StandardNode, curve: (x: number) => number): StandardNode {
  const node = context.createWaveShaper();
  node.curve = Float32Array.from({ length: curvePoints }, (_, n) => curve((2 * n) / (curvePoints - 1) - 1));
  input.connect(node);
  return node;
}
