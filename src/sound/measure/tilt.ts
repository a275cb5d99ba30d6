import { powerToDb } from "../dsp/units.js";
import { toneHighestHz, toneLowestHz } from "./moments.js";
import { numberMeasure } from "./numberMeasure.js";
import { slopeOf } from "./slope.js";
import type { SpectrumFacts } from "./spectrumFacts.js";

export const tiltMeasure = numberMeasure({
  id: "tiltDbPerOctave",
  from: "sound",
  needs: ["spectrum"],
  value: ({ spectrum }) => tiltDbPerOctaveOf(spectrum.thirds),
  why: () => "fewer than three third octaves hold sound",
  means: "slope of the power density over frequency, dB per octave: white noise 0, pink noise -3.01",
  source: "least squares; white and pink from their densities, constant and 1/f",
  name: "tilt",
  unit: "dB per octave",
  format: { signed: 1 },
  better: null,
  tables: {},
});

/** Thirds this far below the loudest hold rounding and the window's skirts. */
const emptyBelow = 1e-10;
/** Fewer points do not make a line. */
const leastThirds = 3;

/**
 * Slope of the power density over frequency: the least-squares line through the third-octave levels from 50 Hz to
 * 16 kHz, each less 10 log10 of its bandwidth, against log2 of its centre. Thirds weigh the same, so octaves do too.
 *
 * @returns dB per octave: white noise 0, pink noise -3.01; null when fewer than three thirds hold sound
 * Source: least squares; white and pink from their densities, constant and 1/f.
 */
function tiltDbPerOctaveOf(energies: SpectrumFacts["thirds"]): number | null {
  const thirds = energies
    .filter((third) => third !== null)
    .filter(({ band }) => band.centreHz >= toneLowestHz && band.centreHz <= toneHighestHz)
    .map(({ band, left, right }) => ({ band, energy: left + right }));
  const least = emptyBelow * thirds.reduce((most, { energy }) => Math.max(most, energy), 0);
  const heard = thirds.filter(({ energy }) => energy > least);
  if (heard.length < leastThirds) return null;
  return slopeOf(
    heard.map(({ band }) => Math.log2(band.exactCentreHz)),
    heard.map(({ band, energy }) => powerToDb(energy / (band.highHz - band.lowHz))),
  );
}
