import { kernelPerChannel } from "../../sound/dsp/channels.js";
import type { Kernel, SettingTable } from "../../sound/dsp/kernel.js";
import { ModulatedDelay } from "../../sound/dsp/modulatedDelay.js";
import { msToFrames } from "../../sound/dsp/units.js";
import { type PedalUse, rightPhaseDegrees } from "./pedalModel.js";

/** Where the LFO stands when the sound starts. Every modulated pedal has it, so that a render can be repeated. */
export const phaseSetting = {
  phaseDegrees: { default: 0, min: 0, max: 360, says: "LFO phase of the left output when the take starts" },
} as const satisfies SettingTable;

/** The shortest delay of a pedal that swings one: more than one frame from 8 kHz up. Common practice, no source. */
export const shortestDelayMs = 0.15;

/** LFO phase of one side at the start, in degrees: the right one stands behind the left by the spread. */
export function sidePhaseDegrees(
  settings: { phaseDegrees: number; secondOutput: string; spreadDegrees: number },
  side: 0 | 1,
): number {
  return settings.phaseDegrees - side * rightPhaseDegrees(settings);
}

/** What a swung delay is made of, in the units that people set; see `ModulatedDelay`. */
export interface SwungDelay {
  readonly delayMs: number;
  readonly depthMs: number;
  readonly voices: number;
  readonly feedback: number;
  readonly fixedTap: number;
}

/**
 * The kernel of chorus, flanger and vibrato: a swung delay a side, the right side's swing behind the left's by the
 * spread. A swing that would bring the delay under the shortest stops there.
 */
export function swungDelayKernel(
  settings: { lfoHz: number; phaseDegrees: number; secondOutput: string; spreadDegrees: number },
  use: PedalUse,
  { delayMs, depthMs, voices, feedback, fixedTap }: SwungDelay,
): Kernel {
  const { rateHz, interpolation } = use;
  const centreMs = Math.max(delayMs, shortestDelayMs);
  const make = (side: 0 | 1) =>
    new ModulatedDelay({
      centreFrames: msToFrames(centreMs, rateHz),
      swingFrames: msToFrames(Math.min(depthMs, centreMs - shortestDelayMs), rateHz),
      phaseDegrees: sidePhaseDegrees(settings, side),
      lfoHz: settings.lfoHz,
      rateHz,
      interpolation,
      voices,
      feedback,
      fixedTap,
    });
  return kernelPerChannel(use, make, rightPhaseDegrees(settings) === 0);
}
