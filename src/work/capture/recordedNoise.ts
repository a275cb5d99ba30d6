import { powerToDb } from "../../sound/dsp/units.js";
import type { Clock } from "./clock.js";
import type { SweepInverse } from "./sweepInverse.js";

/** What the recording holds while the tone is silent, and what that makes of the response. */
export interface RecordedNoise {
  /** RMS ahead of the first mark, dB to full scale 1; null for digital silence or no lead-in. */
  readonly levelDbfs: number | null;
  /** Mean square of the recording ahead of the first mark. */
  readonly power: number;
  /** Mean square that this noise adds to each frame of one repeat's response. */
  readonly responsePower: number;
  /** The same as a spectrum: a window of w frames holds w times this at bin k, 0 to N/2. */
  readonly responsePowerAt: Float64Array;
  /** The stretch that it was measured in. */
  readonly silence: Float64Array;
}

/** Time kept clear ahead of the first mark, for what a recorder's filters let ring ahead. */
const clearSeconds = 0.01;
/** Mean square of a Hann window. */
const hannPower = 3 / 8;

/** Measures the silence between the start of recording or tone, whichever is later, and the first mark. */
export function recordedNoise(straight: Float64Array, clock: Clock, inverse: SweepInverse): RecordedNoise {
  const { layout, fft } = inverse;
  const from = Math.max(0, Math.ceil(-clock.origin / clock.stretch));
  const count = Math.min(
    fft.size,
    layout.markStarts[0] - Math.round(clearSeconds * layout.settings.rateHz) - from,
  );
  const half = fft.size / 2;
  if (count < 64)
    return {
      levelDbfs: null,
      power: 0,
      responsePower: 0,
      responsePowerAt: new Float64Array(half + 1),
      silence: new Float64Array(0),
    };
  const windowed = new Float64Array(count);
  let sum = 0;
  for (let n = 0; n < count; n++) {
    const x = straight[from + n];
    sum += x * x;
    windowed[n] = x * (0.5 - 0.5 * Math.cos((2 * Math.PI * n) / count));
  }
  const { re, im } = inverse.deconvolve(windowed, 0, count);
  const responsePowerAt = new Float64Array(half + 1);
  let total = 0;
  for (let k = 0; k <= half; k++) {
    responsePowerAt[k] = (re[k] * re[k] + im[k] * im[k]) / (count * hannPower);
    total += responsePowerAt[k];
  }
  const power = sum / count;
  return {
    levelDbfs: power > 0 ? powerToDb(power) : null,
    power,
    responsePower: (2 * total) / fft.size,
    responsePowerAt,
    silence: straight.subarray(from, from + count),
  };
}
