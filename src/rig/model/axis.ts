import type { SettingValue } from "../../sound/dsp/kernel.js";

/** A knob and the places that it is turned to, in order. */
export interface Axis {
  readonly path: string;
  readonly values: readonly SettingValue[];
}

/** Knobs that are turned together, step by step; all have as many values. */
export type AxisGroup = readonly Axis[];
