import { sine } from "../signals.js";
import type { TakeSound } from "./comparison.js";

export const rateHz = 48_000;
const sineHz = 997;

/** 997 Hz at -10 dBFS, swelling over half a second so that its start is no step, exact in 24 bits. */
export function sineTake(): TakeSound {
  const tone = sine({ frequencyHz: sineHz, rateHz, lengthSeconds: 2.5, peakDbfs: -10 });
  const swell = Math.round(0.5 * rateHz);
  const samples = tone.map((x, n) => {
    const gain = n < swell ? 0.5 - 0.5 * Math.cos((Math.PI * n) / swell) : 1;
    return Math.round(x * gain * 2 ** 23) / 2 ** 23;
  });
  return { channels: [samples], rateHz, bits: 24 };
}
