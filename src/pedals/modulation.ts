import type { SettingTable } from "../dsp/kernel.js";
import { msToFrames } from "../dsp/units.js";
import { rightPhaseDegrees } from "./pedalModel.js";

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

/** Centre and swing in frames; a swing that would bring the delay under the shortest stops there. */
export function swungDelay(
  delayMs: number,
  depthMs: number,
  rateHz: number,
): { centreFrames: number; swingFrames: number } {
  const centreMs = Math.max(delayMs, shortestDelayMs);
  const centreFrames = Math.max(1, msToFrames(centreMs, rateHz));
  const swingFrames = Math.min(
    msToFrames(Math.min(depthMs, centreMs - shortestDelayMs), rateHz),
    centreFrames - 1,
  );
  return { centreFrames, swingFrames };
}
