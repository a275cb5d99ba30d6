import { kernelPerChannel, type MonoKernel } from "../../sound/dsp/channels.js";
import type { SettingTable } from "../../sound/dsp/kernel.js";
import { Lfo, lfoWaves } from "../../sound/dsp/lfo.js";
import { amplified } from "../../sound/standard/nodes.js";
import { alwaysNear, perSide } from "../../sound/standard/standardModel.js";
import { swing } from "../../sound/standard/swing.js";
import type { StandardContext, StandardNode } from "../../sound/standard/webAudio.js";
import { phaseSetting } from "./modulation.js";
import { type PedalModel, secondOutputBlend, secondOutputSettings, wholeSound } from "./pedalModel.js";

export const tremoloSettings = {
  lfoHz: { isMain: true, default: 4, min: 0.1, max: 20, log: true, says: "speed of the swing" },
  depth: { isMain: true, default: 0.6, min: 0, max: 1, says: "how far the gain, or the place, swings" },
  wave: { default: "sine", choices: lfoWaves, says: "shape of the swing" },
  law: {
    default: "gain",
    choices: ["gain", "equal-power"],
    says: "each side's own gain, or an equal-power panner that moves the sound between the sides",
  },
  ...secondOutputSettings,
  ...phaseSetting,
} as const satisfies SettingTable;

/**
 * Tremolo: with w the swing from -1 to 1 (a sine, or a triangle), the gain moves from 1 down to 1 - depth and back:
 *
 *     gain       g = 1 - depth (1 - w)/2; a tone of amplitude A leaves as A(1 - depth/2) with two sidebands of A depth/4
 *     equal-power  angle = (pi/4)(1 + depth w), left cos(angle), right sin(angle): -3.01 dB a side in the middle
 *
 * Under the gain law the right side's swing stands behind the left's by spreadDegrees; 180 makes a panner of it. All of
 * the sound goes through the gain. What the effect adds is the swing, so `inverted-wet` swings the right side the other
 * way, and a fold-down to mono loses the effect; `wet-dry` leaves the right side alone. The equal-power law has two
 * sides of its own: of spread and second output it heeds `wet-dry` alone.
 * Source: amplitude modulation, closed form; the equal-power law is that of the W3C Web Audio StereoPannerNode, and
 * left and right then correlate by J0(pi depth/2) on a sine (closed form).
 */
export const tremolo: PedalModel<typeof tremoloSettings> = {
  kind: "Tremolo",
  plural: "tremolos",
  settings: tremoloSettings,
  ...wholeSound,
  kernel(settings, use) {
    const { lfoHz, depth, wave, law } = settings;
    const rightBehind = settings.secondOutput === "inverted-wet" ? 180 : settings.spreadDegrees;
    const make = (side: 0 | 1): MonoKernel => {
      if (law === "equal-power") {
        return new PanSide(new Lfo(lfoHz, use.rateHz, settings.phaseDegrees, wave), depth, side);
      }
      const phase = settings.phaseDegrees - side * rightBehind;
      return new SwungGain(new Lfo(lfoHz, use.rateHz, phase, wave), depth);
    };
    return kernelPerChannel(use, make, law === "gain" && rightBehind === 0);
  },
  blend({ secondOutput }, outputs) {
    const second = secondOutput === "wet-dry" ? secondOutput : "phase";
    return secondOutputBlend({ mix: 1, secondOutput: second }, outputs);
  },
  silenceMs: () => 0,
  changesInTime: true,
  nonlinear: false,
  isFilter: ({ depth }) => depth === 0,
  /**
   * Tremolo: the swing on the gain of a GainNode; under the equal-power law by way of a WaveShaperNode that makes
   * the cosine of the angle.
   */
  standard: {
    ...alwaysNear,
    wet: (pedal) => {
      const { context, settings, frames } = pedal;
      const { lfoHz, depth, wave, law, phaseDegrees, secondOutput, spreadDegrees } = settings;
      return perSide(pedal, (input, side) => {
        const gain = amplified(context, input, law === "gain" ? 1 - depth / 2 : 0);
        if (law === "equal-power") {
          const swung = swing(context, { lfoHz, wave, phaseDegrees, frames });
          const angle = ((side === 0 ? 1 : -1) * depth * Math.PI) / 4;
          shaped(context, swung, (w) => Math.cos(Math.PI / 4 + angle * w)).connect(gain.gain);
        } else {
          const behind = side * (secondOutput === "inverted-wet" ? 180 : spreadDegrees);
          const swung = swing(context, { lfoHz, wave, phaseDegrees: phaseDegrees - behind, frames });
          amplified(context, swung, depth / 2).connect(gain.gain);
        }
        return gain;
      });
    },
  },
  costNs: 5,
};

class SwungGain implements MonoKernel {
  readonly #lfo: Lfo;
  readonly #depth: number;
  constructor(lfo: Lfo, depth: number) {
    this.#lfo = lfo;
    this.#depth = depth;
  }
  process(input: Float32Array, output: Float32Array, frames: number): void {
    const lfo = this.#lfo;
    const middle = 1 - this.#depth / 2;
    const swing = this.#depth / 2;
    for (let done = 0; done < frames; ) {
      const run = lfo.ready(frames - done);
      const { values, at } = lfo;
      for (let n = 0; n < run; n++) output[done + n] = input[done + n] * (middle + swing * values[at + n]);
      lfo.at += run;
      done += run;
    }
  }
}

/** One side of the equal-power panner. The right side's sine is the left's cosine, a quarter circle on. */
class PanSide implements MonoKernel {
  readonly #lfo: Lfo;
  readonly #depth: number;
  readonly #sign: number;
  constructor(lfo: Lfo, depth: number, side: 0 | 1) {
    this.#lfo = lfo;
    this.#depth = depth;
    this.#sign = side === 0 ? 1 : -1;
  }
  process(input: Float32Array, output: Float32Array, frames: number): void {
    const lfo = this.#lfo;
    const angle = (this.#sign * this.#depth * Math.PI) / 4;
    for (let done = 0; done < frames; ) {
      const run = lfo.ready(frames - done);
      const { values, at } = lfo;
      for (let n = 0; n < run; n++) {
        output[done + n] = input[done + n] * Math.cos(Math.PI / 4 + angle * values[at + n]);
      }
      lfo.at += run;
      done += run;
    }
  }
}

/** So many points that straight lines between them are within 1e-9 of a cosine. */
const curvePoints = 16_385;

/** A signal from -1 to 1 through a curve. */
function shaped(context: StandardContext, input: StandardNode, curve: (x: number) => number): StandardNode {
  const node = context.createWaveShaper();
  node.curve = Float32Array.from({ length: curvePoints }, (_, n) => curve((2 * n) / (curvePoints - 1) - 1));
  input.connect(node);
  return node;
}
