import type { NumberSetting } from "../../sound/dsp/kernel.js";

/** Steps of a slider from end to end. */
export const sliderSteps = 400;

type Scale = Pick<NumberSetting, "min" | "max" | "log" | "whole">;

/** Where a slider stands for a value: 0 to `sliderSteps`, on a log scale where the setting asks for one. */
export function toSlider(value: number, { min, max, log }: Scale): number {
  const share = log ? Math.log(value / min) / Math.log(max / min) : (value - min) / (max - min);
  return Math.round(share * sliderSteps);
}

/** The value of a slider's place: the ends exactly, three figures between. */
export function fromSlider(place: number, { min, max, log, whole }: Scale): number {
  if (place <= 0) return min;
  if (place >= sliderSteps) return max;
  const share = place / sliderSteps;
  const value = log ? min * (max / min) ** share : min + (max - min) * share;
  if (whole) return Math.round(value);
  const rounded = log ? Number(value.toPrecision(3)) : roundTo(value, (max - min) / sliderSteps);
  return Math.min(max, Math.max(min, rounded));
}

/** To the decimal place that a step needs. */
function roundTo(value: number, step: number): number {
  const places = Math.max(0, Math.ceil(-Math.log10(step)));
  return Number(value.toFixed(places));
}
