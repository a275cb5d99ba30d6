import { Biquad } from "../../../src/sound/dsp/biquad.js";
import { highPass, lowPass } from "../../../src/sound/dsp/biquadDesign.js";
import { impulse } from "../../signals.js";
import { type Sound, type Values, wetOf } from "./runPedal.js";

/** The wet response to a click on every input, or on one of two. */
export function responseOf(options: {
  model: string;
  settings?: Values;
  rateHz?: number;
  seconds?: number;
  jacks?: readonly [1 | 2, 1 | 2];
  clickOn?: "left" | "right" | "both";
}): Sound {
  const { model, settings = {}, rateHz = 48_000, seconds = 2, jacks = [1, 2], clickOn = "both" } = options;
  const frames = Math.round(seconds * rateHz);
  const silence = new Float32Array(frames);
  const left = clickOn === "right" ? silence : impulse(frames);
  const right = clickOn === "left" ? silence : impulse(frames);
  const input = jacks[0] === 1 ? [left] : [left, right];
  return wetOf({ model, settings, rateHz, input, outputs: jacks[1] });
}

/** One octave, by Butterworth low- and high-passes of fourth order at its edges, a factor of 10^0.15 from the centre. */
export function octave(signal: Float32Array, centreHz: number, rateHz: number): Float32Array {
  const edge = 10 ** 0.15;
  return [0.5411961, 1.306563]
    .flatMap((q) => [
      highPass({ cutoffHz: centreHz / edge, rateHz, q }),
      lowPass({ cutoffHz: centreHz * edge, rateHz, q }),
    ])
    .reduce((sound, section) => {
      const out = new Float32Array(sound.length);
      new Biquad(section).process(sound, out, sound.length);
      return out;
    }, signal);
}

export function energyOf(signal: Float32Array): number {
  let energy = 0;
  for (const sample of signal) energy += sample * sample;
  return energy;
}

export const firstSound = (signal: Float32Array): number => signal.findIndex((sample) => sample !== 0);

/**
 * Normalised echo density around one moment: the share of samples further than one standard deviation from zero, over
 * what Gaussian noise has, erfc(1 / sqrt 2) = 0.3173. Source: J. S. Abel and P. Huang, "A simple, robust measure of
 * reverberation echo density", AES 121st Convention, 2006.
 */
export function echoDensity(response: Float32Array, atSeconds: number, rateHz: number): number {
  const half = Math.round(0.0125 * rateHz);
  const middle = Math.round(atSeconds * rateHz);
  const window = response.subarray(middle - half, middle + half);
  const deviation = Math.sqrt(energyOf(window) / window.length);
  return window.filter((sample) => Math.abs(sample) > deviation).length / window.length / 0.3173;
}
