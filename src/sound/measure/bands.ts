import { powerToDb } from "../dsp/units.js";
import type { LevelledBand, OctaveBand } from "./band.js";
import { type BandEnergies, foldDownOf, loudest } from "./bandEnergies.js";
import { octaveReasons, thirdReasons } from "./bandReasons.js";
import { bandsMeasure } from "./bandsMeasure.js";
import { correlationOf } from "./correlation.js";
import { octaveBands, thirdOctaveBands } from "./isoBands.js";
import { finite } from "./measure.js";

const level = { field: "levelDb", name: "level", unit: "dB", format: { fixed: 1 }, better: null } as const;
const source = "IEC 61260-1:2014 for the edges; ideal rectangles";

export const octavesMeasure = bandsMeasure({
  id: "bands",
  needs: ["spectrum"],
  bands: octaveBands,
  prefix: "octave",
  value: ({ spectrum, frames }) => octavesOf(spectrum.octaves, frames),
  why: (values, { rateHz }) => octaveReasons(values, rateHz),
  means: "level, dB re a full-scale square, correlation, side share and loss in mono of every octave",
  source,
  fields: [
    level,
    { field: "correlation", name: "correlation", unit: "", format: { fixed: 2 }, better: null },
    { field: "sideShare", name: "side share", unit: "", format: { fixed: 2 }, better: "more" },
    { field: "foldDownLossDb", name: "loss in mono", unit: "dB", format: { fixed: 1 }, better: "less" },
  ],
});

export const thirdsMeasure = bandsMeasure({
  id: "thirds",
  needs: ["spectrum"],
  bands: thirdOctaveBands,
  prefix: "third",
  value: ({ spectrum, frames }) => thirdsOf(spectrum.thirds, frames),
  why: (values, { rateHz }) => thirdReasons(values, rateHz),
  means: "level of every third octave, dB re a full-scale square",
  source,
  fields: [level],
});

/** A band this far below the loudest holds rounding and the window's skirts, nothing to compare left and right by. */
const emptyBelow = 1e-10;

/**
 * Octave bands: level (mean power of the two channels, dB re a full-scale square), correlation, side share and
 * fold-down loss, each as for the whole take but of the band's energy.
 *
 * Null: every field of a band that does not end below half the rate; the level of a silent band; the three stereo
 * fields of a band over 100 dB below the loudest; correlation with one side silent; the loss of a band that cancels.
 *
 * @param energies  in the order of `octaveBands`, of a sound of so many frames
 * Source: IEC 61260-1:2014 for the edges; ideal rectangles, so a filter bank's skirts are not in it.
 */
function octavesOf(energies: readonly (BandEnergies | null)[], frames: number): OctaveBand[] {
  const least = emptyBelow * loudest(energies);
  return octaveBands.map(({ centreHz }, k) => {
    const band = energies[k];
    const heard = band !== null && band.left + band.right > least ? band : null;
    return {
      centreHz,
      levelDb: levelDb(band, frames),
      correlation: heard && correlationOf(heard),
      sideShare: heard && Math.max(0, 0.5 - heard.cross / (heard.left + heard.right)),
      foldDownLossDb: heard && finite(foldDownOf(heard)),
    };
  });
}

const thirdsOf = (energies: readonly (BandEnergies | null)[], frames: number): LevelledBand[] =>
  thirdOctaveBands.map(({ centreHz }, k) => ({ centreHz, levelDb: levelDb(energies[k], frames) }));

function levelDb(band: BandEnergies | null, frames: number): number | null {
  if (band === null || !(band.left + band.right > 0)) return null;
  return powerToDb((band.left + band.right) / 2 / frames);
}
