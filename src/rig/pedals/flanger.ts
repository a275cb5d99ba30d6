import type { SettingTable } from "../../sound/dsp/kernel.js";
import { phaseSetting, swungDelayKernel } from "./modulation.js";
import { besideDry, type PedalModel, secondOutputBlend, secondOutputSettings } from "./pedalModel.js";
import { standardSwing } from "./standardSwing.js";

export const flangerSettings = {
  lfoHz: { isMain: true, default: 0.2, min: 0.02, max: 10, log: true, says: "speed of the swing" },
  depthMs: {
    isMain: true,
    default: 0.8,
    min: 0,
    max: 5,
    says: "swing of the delay either side of its centre",
  },
  delayMs: { default: 1, min: 0.2, max: 10, log: true, says: "centre of the delay" },
  feedback: {
    default: -0.7,
    min: -0.95,
    max: 0.95,
    says: "share of the delayed sound taken from the input",
  },
  mix: { isMain: true, default: 0.5, min: 0, max: 1, says: "share of the effect; the rest is dry" },
  ...secondOutputSettings,
  ...phaseSetting,
} as const satisfies SettingTable;

/**
 * Flanger: a short, swinging delay beside the sound, with feedback from a tap that stands still at the centre i. The
 * wet sound is the published output less its input, so that mix 0.5 gives the published circuit, at half its level:
 *
 *     v(n) = x(n) - feedback v(n - i)          wet(n) = v(n - D) - feedback v(n - i)
 *
 * With the swing stopped and mix 0.5: (1 + z^-i)/(1 + feedback z^-i)/2; notches at (2k + 1)/(2 delayMs), peaks between
 * them that a negative feedback sharpens: |H| = 1/(1 + feedback) there, in the published sign.
 * Source: J. Dattorro, "Effect Design, Part 2", J. Audio Eng. Soc. 45(10), 1997, pp. 764-788, Tables 6 and 7 (0 to
 * 10 ms, nominal 1 ms, feedback -0.7071; here -0.7). The paper runs both sides of a stereo flanger in phase: spreadDegrees 0.
 */
export const flanger: PedalModel<typeof flangerSettings> = {
  kind: "Flanger",
  plural: "flangers",
  settings: flangerSettings,
  ...besideDry,
  kernel: (settings, use) =>
    swungDelayKernel(settings, use, { ...settings, voices: 1, fixedTap: -settings.feedback }),
  blend: secondOutputBlend,
  silenceMs: ({ delayMs, depthMs }) => delayMs + depthMs,
  changesInTime: true,
  nonlinear: false,
  isFilter: ({ depthMs }) => depthMs === 0,
  /** Flanger: one such delay behind a comb, less what stands still. */
  standard: standardSwing((settings) => ({ ...settings, voices: 1, fixedTap: -settings.feedback })),
  costNs: 5,
};
