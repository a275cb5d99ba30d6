import type { Block } from "../../sound/dsp/kernel.js";
import { gainToDb } from "../../sound/dsp/units.js";
import { meanSquareToDbfs } from "../levels/dbu.js";

/** How far two renders of one thing are apart. Null: alike to the last bit. Infinity: some sample is no number. */
export interface Difference {
  /** RMS over all channels, a full-scale sine at 0. */
  readonly rmsDbfs: number | null;
  /** The largest single difference, full scale at 0. */
  readonly peakDbfs: number | null;
}

/**
 * Difference of two renders, sample by sample: sqrt(mean((a - b)^2)) and max |a - b|.
 * @param a channels, full scale 1
 * @param b as many channels of as many frames
 * @throws RangeError when shapes differ
 */
export function differenceOf(a: Block, b: Block): Difference {
  if (a.length !== b.length || a.some((channel, c) => channel.length !== b[c].length))
    throw new RangeError("differenceOf: the two have not the same channels and frames");
  let sum = 0;
  let peak = 0;
  let samples = 0;
  for (let c = 0; c < a.length; c++) {
    const [x, y] = [a[c], b[c]];
    for (let n = 0; n < x.length; n++) {
      const off = Math.abs(x[n] - y[n]);
      sum += off * off;
      if (off > peak) peak = off;
    }
    samples += x.length;
  }
  if (Number.isNaN(sum)) return { rmsDbfs: Number.POSITIVE_INFINITY, peakDbfs: Number.POSITIVE_INFINITY };
  if (peak === 0) return { rmsDbfs: null, peakDbfs: null };
  return { rmsDbfs: meanSquareToDbfs(sum / samples), peakDbfs: gainToDb(peak) };
}

/** The largest of several. */
export function worstOf(differences: readonly Difference[]): Difference {
  const most = (values: readonly (number | null)[]) => {
    const known = values.filter((value) => value !== null);
    return known.length === 0 ? null : Math.max(...known);
  };
  return {
    rmsDbfs: most(differences.map(({ rmsDbfs }) => rmsDbfs)),
    peakDbfs: most(differences.map(({ peakDbfs }) => peakDbfs)),
  };
}
