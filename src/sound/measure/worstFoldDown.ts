import { type BandEnergies, foldDownOf, loudest } from "./bandEnergies.js";
import { numberMeasure } from "./numberMeasure.js";

/** What is this far below the loudest band is not worth naming as a loss; common practice, no source. */
const faintBelow = 1e-6;
/** Smaller losses are none. */
const leastLossDb = 0.05;

export const worstFoldDownMeasure = numberMeasure({
  id: "worstFoldDownHz",
  from: "sound",
  needs: ["spectrum"],
  value: ({ spectrum }) => worstFoldDownHzOf(spectrum.octaves),
  why: () => "no band loses anything in mono",
  means: "nominal centre of the octave that loses most in mono, of those within 60 dB of the loudest, Hz",
  source: "common practice, no source",
  name: "octave of the worst loss in mono",
  unit: "Hz",
  format: { fixed: 0 },
  better: null,
  tables: {},
});

/** Null when none loses 0.05 dB. */
function worstFoldDownHzOf(energies: readonly (BandEnergies | null)[]): number | null {
  const least = faintBelow * loudest(energies);
  let worstDb = leastLossDb;
  let worstHz: number | null = null;
  for (const band of energies) {
    if (band === null || !(band.left + band.right > least)) continue;
    const lossDb = foldDownOf(band);
    if (lossDb <= worstDb) continue;
    worstDb = lossDb;
    worstHz = band.band.centreHz;
  }
  return worstHz;
}
