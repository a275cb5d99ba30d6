import { powerToDb } from "../dsp/units.js";
import { KEnergyMeter } from "./kEnergies.js";
import { gateOf, integratedLufsOfBlocks, loudnessPowers } from "./loudness.js";
import { numberMeasure } from "./numberMeasure.js";
import { commonFrames } from "./stereoSums.js";
import { notLoud } from "./why.js";

export const foldDownMeasure = numberMeasure({
  id: "foldDownLossDb",
  from: "sound",
  needs: ["loudness"],
  value: ({ loudness }) => foldDownLossDbOf(loudness.blocks, loudness.foldedBlocks),
  why: (facts) =>
    integratedLufsOfBlocks(facts.loudness.blocks) === null
      ? notLoud(facts)
      : "left and right cancel entirely in mono",
  means: "loudness of (L, R) less that of (m, m), m = (L+R)/2, LU: 0 mono, 3.01 unrelated at equal level",
  source: "closed form; loudness by ITU-R BS.1770-5 (2023)",
  name: "loss in mono",
  unit: "dB",
  heading: ["mono", "loss dB"],
  format: { fixed: 1 },
  better: "less",
  tables: { compare: { fromColumns: 0 }, recordings: {}, page: {} },
});

/**
 * What folding to mono costs: the integrated loudness of (L, R) less that of (m, m), m = (L+R)/2, in LU. Each is gated
 * by itself. When (m, m) is never above the absolute gate, both are taken over the blocks that count for (L, R).
 *
 * @param left   samples, full scale 1
 * @param right  samples, as many as `left`
 * @returns 0 mono, 3.01 unrelated at equal level or one side silent, Infinity when nothing is left; null when (L, R)
 *   has no loudness. Below 0 only where the gate leaves out quiet blocks of (m, m) that it counts for (L, R)
 * @throws RangeError when the lengths differ
 * Source: closed form, 10 log10(2 / (1 + q rho)) with q = 2 sqrt(PL PR) / (PL + PR), of the K-weighted channels;
 * loudness by ITU-R BS.1770-5 (2023). Both sides of the mono desk play m, so mono material loses nothing.
 */
export function foldDownLossDb(left: Float32Array, right: Float32Array, rateHz: number): number | null {
  const meter = new KEnergyMeter(rateHz);
  meter.push(left, right, commonFrames(left, right));
  const { blocks, foldedBlocks } = loudnessPowers(meter.result());
  return foldDownLossDbOf(blocks, foldedBlocks);
}

/** The same from the powers of the 400 ms blocks of (L, R) and of (m, m). */
function foldDownLossDbOf(stereo: Float64Array, folded: Float64Array): number | null {
  const stereoLufs = integratedLufsOfBlocks(stereo);
  if (stereoLufs === null) return null;
  const foldedLufs = integratedLufsOfBlocks(folded);
  return foldedLufs === null ? lossOverStereoBlocks(stereo, folded) : stereoLufs - foldedLufs;
}

function lossOverStereoBlocks(stereo: Float64Array, folded: Float64Array): number | null {
  const gate = gateOf(stereo);
  if (gate === null) return null;
  let before = 0;
  let after = 0;
  stereo.forEach((power, k) => {
    if (power <= gate) return;
    before += power;
    after += folded[k];
  });
  return powerToDb(before / after);
}
