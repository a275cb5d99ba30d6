import type { SettingTable } from "../../sound/dsp/kernel.js";
import { phaseSetting, swungDelayKernel } from "./modulation.js";
import { besideDry, type PedalModel, secondOutputBlend, secondOutputSettings } from "./pedalModel.js";
import { standardSwing } from "./standardSwing.js";

export const chorusSettings = {
  lfoHz: { isMain: true, default: 0.6, min: 0.02, max: 10, log: true, says: "speed of the swing" },
  depthMs: {
    isMain: true,
    default: 2,
    min: 0,
    max: 20,
    says: "swing of the delay either side of its centre",
  },
  delayMs: { default: 5, min: 1, max: 100, log: true, says: "centre of the delay" },
  voices: { default: 1, min: 1, max: 3, whole: true, says: "delayed copies, their swings evenly spaced" },
  feedback: { default: 0, min: -0.9, max: 0.9, says: "share of the delayed sound taken from the input" },
  mix: { isMain: true, default: 0.4142, min: 0, max: 1, says: "share of the effect; the rest is dry" },
  ...secondOutputSettings,
  ...phaseSetting,
} as const satisfies SettingTable;

/**
 * Chorus: copies of the sound, each late by a delay that swings as a sine, D(t) = delayMs + depthMs sin(2 pi lfoHz t).
 * The wet sound of one voice, with v the line's input and i the centre as a whole frame:
 *
 *     v(n) = x(n) - feedback v(n - i)          wet(n) = v(n - D) - feedback^2 v(n - i)
 *
 * Without feedback, mix = 0.4142 (dry 1 to wet 0.7071) is the paper's standard chorus. With feedback f and
 * mix = 1/(1 + f), dry and wet together are in proportion to f v(n) + v(n - D), its "white" chorus: with the swing
 * stopped (f + z^-i)/(1 + f z^-i), an all-pass (f = 0.7071, delayMs 9.07, depthMs 7.94, lfoHz 0.15 are advised).
 * A swing deeper than the delay allows stops at a delay of 0.15 ms.
 * Source: J. Dattorro, "Effect Design, Part 2", J. Audio Eng. Soc. 45(10), 1997, pp. 764-788, Tables 6 and 7; stereo by
 * LFOs 90 degrees apart, as advised there. More than one voice: common practice, no source.
 */
export const chorus: PedalModel<typeof chorusSettings> = {
  kind: "Chorus",
  plural: "choruses",
  settings: chorusSettings,
  ...besideDry,
  kernel: (settings, use) =>
    swungDelayKernel(settings, use, { ...settings, fixedTap: -(settings.feedback ** 2) }),
  blend: secondOutputBlend,
  silenceMs: ({ delayMs, depthMs }) => delayMs + depthMs,
  changesInTime: true,
  nonlinear: false,
  isFilter: ({ depthMs }) => depthMs === 0,
  /** Chorus: as many such delays as it has voices, behind a comb where it has feedback. */
  standard: standardSwing((settings) => ({ ...settings, fixedTap: -(settings.feedback ** 2) })),
  costNs: 5,
};
