import type { BiquadCoefficients } from "./biquad.js";

/**
 * The K-weighting of ITU-R BS.1770 at any rate: a shelf for the head, then a high-pass.
 *
 * The Recommendation prints coefficients for 48 kHz alone and asks for the same frequency response elsewhere. Both
 * filters are therefore taken as analogue prototypes, whose corners are pre-warped to the rate by the bilinear
 * transform, so that each corner stays in its place; the high-pass's gain well above its corner is held at what the
 * 48 kHz table gives, +0.0432 dB, because that table's numerator (1, -2, 1) is not normalised. Largest departure
 * from the 48 kHz response, 20 Hz to 20 kHz: 0.0016 dB at 44.1 kHz, 0.0062 dB at 96 kHz, 0.0078 dB at 192 kHz, and,
 * up to 0.45 of the rate, 0.031 dB at 22.05 kHz, 0.29 dB at 8 kHz. Keeping (1, -2, 1) at every rate departs by 0.040 dB at
 * 192 kHz, and mapping the 48 kHz coefficients back to the s plane without pre-warping by 0.016 dB there and 0.55 dB
 * at 8 kHz.
 *
 * Source: ITU-R BS.1770-5 (2023), Annex 1, Tables 1 and 2; prototype values as in libebur128 (ebur128.c), which give
 * both tables to 14 digits at 48 kHz.
 */
export function kWeighting(rateHz: number): { shelf: BiquadCoefficients; highPass: BiquadCoefficients } {
  return { shelf: shelf(rateHz), highPass: highPass(rateHz) };
}

const shelfHz = 1681.974450955533;
const shelfGain = 10 ** (3.999843853973347 / 20);
const shelfQ = 0.7071752369554196;
const shelfMiddleGain = shelfGain ** 0.4996667741545416;
const highPassHz = 38.13547087602444;
const highPassQ = 0.5003270373238773;

function shelf(rateHz: number): BiquadCoefficients {
  const k = Math.tan((Math.PI * shelfHz) / rateHz);
  const d = 1 + k / shelfQ + k * k;
  const middle = (shelfMiddleGain * k) / shelfQ;
  return {
    b0: (shelfGain + middle + k * k) / d,
    b1: (2 * (k * k - shelfGain)) / d,
    b2: (shelfGain - middle + k * k) / d,
    a1: (2 * (k * k - 1)) / d,
    a2: (1 - k / shelfQ + k * k) / d,
  };
}

function highPass(rateHz: number): BiquadCoefficients {
  const k = Math.tan((Math.PI * highPassHz) / rateHz);
  const d = highPassDenominator(rateHz);
  const b0 = highPassDenominator(48_000) / d;
  return { b0, b1: -2 * b0, b2: b0, a1: (2 * (k * k - 1)) / d, a2: (1 - k / highPassQ + k * k) / d };
}

function highPassDenominator(rateHz: number): number {
  const k = Math.tan((Math.PI * highPassHz) / rateHz);
  return 1 + k / highPassQ + k * k;
}
