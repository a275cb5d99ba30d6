import { numberMeasure } from "./numberMeasure.js";
import { stereoSpectrum } from "./spectrum.js";
import { type SpectrumFacts, spectrumFacts } from "./spectrumFacts.js";
import { sideSilent } from "./why.js";

export const iaccMeasure = numberMeasure({
  id: "iacc",
  from: "sound",
  needs: ["spectrum", "whole"],
  value: ({ spectrum }) => iaccOf(spectrum),
  why: sideSilent,
  means:
    "largest absolute cross-correlation within +-1 ms over sqrt(E(L) E(R)), 0 to 1, taken on the channels",
  source: "ISO 3382-1:2009, Annex B",
  name: "iacc",
  unit: "",
  format: { fixed: 2 },
  better: null,
  tables: {},
});

/**
 * Largest absolute cross-correlation of the channels within +-1 ms, over sqrt(E(L) * E(R)), at whole frames.
 * The standard defines it for the two ears of a listener; here it is taken on the channels.
 *
 * @param left   samples, full scale 1
 * @param right  samples, as many as `left`
 * @returns 0 to 1; 1 for mono, for opposite polarity, and for one channel that is the other delayed by up to 1 ms; null
 *   when either channel is silent
 * @throws RangeError when the lengths differ
 * Source: ISO 3382-1:2009, Annex B, over the whole take.
 */
export function iacc(left: Float32Array, right: Float32Array, rateHz: number): number | null {
  return iaccOf(spectrumFacts(stereoSpectrum(left, right, rateHz)));
}

function iaccOf({ lags, lagEnergies }: SpectrumFacts): number | null {
  const norm = Math.sqrt(lagEnergies);
  if (!(norm > 0)) return null;
  let largest = 0;
  for (let n = 0; n < lags.length; n++) largest = Math.max(largest, Math.abs(lags[n]));
  return Math.min(1, largest / norm);
}
