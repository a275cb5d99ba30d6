import type { HalfBandArrays } from "../loops/bends.js";
import { type Room, roomBytes } from "../loops/room.js";

/**
 * Half-band filters for doubling and halving a rate: H(z) = (A0(z^2) + z^-1 A1(z^2))/2, where A0 and A1 are chains of
 * first-order all-passes (c + z^-1)/(1 + c z^-1). Elliptic, so the stop band is as deep as `sections` allow, and the
 * pass band is then flat far beyond hearing. Next to no delay; the phase is that of an analogue filter.
 * Source: R. A. Valenzuela and A. G. Constantinides, "Digital signal processing schemes for efficient interpolation and
 * decimation", IEE Proc. G 130(6), 1983, pp. 225-235: the series below, from memory; the test measures the outcome.
 *
 * @param sections   number of all-passes, A0 and A1 together
 * @param transition width between pass band and stop band, as a share of the higher rate, 0 to 0.5, about its quarter
 * @returns c of each section, rising; the even ones (0, 2, ..) are A0, the odd ones A1
 */
export function halfBandCoefficients(sections: number, transition: number): Float64Array {
  const edge = Math.tan(((1 - 2 * transition) * Math.PI) / 4) ** 2;
  const root = (1 - edge * edge) ** 0.25;
  const e = (0.5 * (1 - root)) / (1 + root);
  const q = e * (1 + e ** 4 * (2 + e ** 4 * (15 + 150 * e ** 4)));
  const order = 2 * sections + 1;
  return Float64Array.from({ length: sections }, (_, n) => {
    const angle = ((n + 1) * Math.PI) / order;
    let over = 0;
    let under = 0.5;
    for (let i = 0; i < 12; i++) {
      const sign = i % 2 === 0 ? 1 : -1;
      over += sign * q ** (i * (i + 1)) * Math.sin((2 * i + 1) * angle);
      if (i > 0) under += sign * q ** (i * i) * Math.cos(2 * i * angle);
    }
    const ww = (q ** 0.25 * (over / under)) ** 2;
    const x = Math.sqrt((1 - ww * edge) * (1 - ww / edge)) / (1 + ww);
    return (1 - x) / (1 + x);
  });
}

/** Delay of low tones through the filter, in frames of the higher rate: 2 sum over A0 of (1 - c)/(1 + c). */
export function halfBandDelay(coefficients: Float64Array): number {
  let sum = 0;
  for (let n = 0; n < coefficients.length; n += 2) sum += (1 - coefficients[n]) / (1 + coefficients[n]);
  return 2 * sum;
}

/**
 * What a filter works with, in a room. Where A1 has a section less, one with a coefficient of 1 stands in: it passes all as
 * it is.
 */
export function halfBandArrays(
  coefficients: Float64Array,
  input: Float64Array,
  output: Float64Array,
  room: Room,
): HalfBandArrays {
  const count = evenCount(coefficients);
  const both = room.doubles(count).fill(1);
  both.set(coefficients);
  return { coefficients: both, states: room.doubles(count), input, output };
}

const evenCount = (coefficients: Float64Array): number => 2 * Math.ceil(coefficients.length / 2);

/** What `halfBandArrays` takes in a room. */
export const halfBandBytes = (coefficients: Float64Array): number =>
  roomBytes(8 * evenCount(coefficients), 8 * evenCount(coefficients));
