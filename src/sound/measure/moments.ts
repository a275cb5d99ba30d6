import { binShare } from "./bandEnergies.js";

/** Both measures of tone are taken from here to there. */
export const toneLowestHz = 50;
export const toneHighestHz = 16_000;

/** sum(P(f)) and sum(f P(f)), f in Hz, from 50 Hz to 16 kHz. */
export interface Moments {
  readonly zeroth: number;
  readonly first: number;
}

/** Moments of one power or cross spectrum. */
export function momentsOf(powers: Float64Array, binHz: number): Moments {
  let first = 0;
  let zeroth = 0;
  const low = toneLowestHz / binHz;
  const high = toneHighestHz / binHz;
  for (let k = Math.round(low); k <= Math.min(Math.round(high), powers.length - 1); k++) {
    const power = binShare(k, low, high) * powers[k];
    first += k * binHz * power;
    zeroth += power;
  }
  return { zeroth, first };
}
