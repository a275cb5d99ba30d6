import type { SettingTable } from "../../sound/dsp/kernel.js";
import { phaseSetting, shortestDelayMs, swungDelayKernel } from "./modulation.js";
import { besideDry, type PedalModel, secondOutputBlend, secondOutputSettings } from "./pedalModel.js";
import { standardSwing } from "./standardSwing.js";

export const vibratoSettings = {
  lfoHz: { isMain: true, default: 5, min: 0.05, max: 14, log: true, says: "speed of the swing" },
  depthMs: {
    isMain: true,
    default: 0.3,
    min: 0,
    max: 5,
    says: "swing of the delay either side of its centre",
  },
  mix: { isMain: true, default: 1, min: 0, max: 1, says: "share of the effect; the rest is dry" },
  ...secondOutputSettings,
  ...phaseSetting,
} as const satisfies SettingTable;

/**
 * Vibrato: the pitch swings. A delay D(t) = D0 + A sin(2 pi lfoHz t), A = depthMs, plays a tone at 1 - dD/dt of its
 * pitch: between 1 - 2 pi lfoHz A and 1 + 2 pi lfoHz A, or 1200 log2 of that in cents. The centre D0 is as short as
 * the swing allows, A + 0.15 ms.
 * Source: J. Dattorro, "Effect Design, Part 2", J. Audio Eng. Soc. 45(10), 1997, pp. 764-788, section 4.4.2 and
 * Table 7 (vibrato: wet alone, delay minimal).
 */
export const vibrato: PedalModel<typeof vibratoSettings> = {
  kind: "Vibrato",
  plural: "vibratos",
  settings: vibratoSettings,
  ...besideDry,
  kernel(settings, use) {
    const { depthMs } = settings;
    const delayMs = depthMs + shortestDelayMs;
    return swungDelayKernel(settings, use, { delayMs, depthMs, voices: 1, feedback: 0, fixedTap: 0 });
  },
  blend: secondOutputBlend,
  silenceMs: ({ depthMs }) => 2 * depthMs + shortestDelayMs,
  changesInTime: true,
  nonlinear: false,
  isFilter: ({ depthMs }) => depthMs === 0,
  /** Vibrato: the swing on a DelayNode's delayTime. */
  standard: standardSwing((settings) => ({
    ...settings,
    delayMs: settings.depthMs + shortestDelayMs,
    voices: 1,
    feedback: 0,
    fixedTap: 0,
  })),
  costNs: 5,
};
