/** Energy that may be cut off ahead of the start, to all of it: -73 dB; and what noise alone may bring there. */
const leadShare = 5e-8;
/** Block of the level curve. */
const blockSeconds = 0.01;
/** A tail ends where it is 3 dB over the noise for the last time, or 90 dB under its loudest block. */
const overNoise = 2;
const underPeak = 1e-9;
/** A tail that has fallen by 60 dB is not called cut. */
const cutShare = 1e-6;

export interface TailEnd {
  /** One past the last frame to keep. */
  readonly to: number;
  /** The tail had not reached the noise floor when what was measured ended. */
  readonly cut: boolean;
}

/**
 * Where a response ends: its tail meets the noise floor for good.
 *
 * @param response first arrival on frame 0
 * @param most frames after the first arrival that were measured
 * @param noisePower mean square of the noise in each frame of the response
 * Source: the crossing of decay and noise after Lundeby et al. 1995 (Acustica 81), from memory, without its line fit:
 * the noise is known from the silence ahead of the tone.
 */
export function tailEndOf(response: Float64Array, most: number, noisePower: number, rateHz: number): TailEnd {
  const block = Math.max(1, Math.round(blockSeconds * rateHz));
  const powers: number[] = [];
  for (let start = 0; start + block <= most; start += block) {
    powers.push(energyBetween(response, start, start + block) / block);
  }
  const peak = Math.max(...powers);
  const floor = Math.max(overNoise * noisePower, underPeak * peak);
  const last = powers.findLastIndex((power) => power > floor);
  const cut = last === powers.length - 1 && powers[last] > cutShare * peak;
  return { to: Math.min(most, (last + 1) * block), cut };
}

/** First frame to keep of a circular response, from `least` (negative) to 0: no sound is lost before it. */
export function headStartOf(response: Float64Array, least: number, to: number, noisePower: number): number {
  const allowed = leadShare * energyBetween(response, 0, to) - overNoise * noisePower * least;
  let from = least;
  for (let spent = 0; from < 0; from++) {
    spent += response[response.length + from] ** 2;
    if (spent > allowed) break;
  }
  return from;
}

function energyBetween(signal: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let n = from; n < to; n++) sum += signal[n] * signal[n];
  return sum;
}
