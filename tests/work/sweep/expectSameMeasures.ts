import { expect } from "vitest";
import { gainToDb } from "../../../src/sound/dsp/units.js";
import { soundMeasuresOf } from "../../../src/sound/measure/fill.js";
import type { SoundMeasures } from "../../../src/sound/measure/measures.js";
import type { MixFacts } from "../../../src/work/sweep/mixAlgebra.js";
import { expectWithin } from "../../within.js";

type NumberField = {
  [Field in keyof SoundMeasures]: SoundMeasures[Field] extends number | null ? Field : never;
}[keyof SoundMeasures];

/**
 * Algebra against measured sound. Shares and correlations within 1e-9, loudness within 0.001 LU, bands within
 * 0.001 dB; what is left is the rounding of the sound to single precision.
 */
export function expectSameMeasures(mix: MixFacts, sound: SoundMeasures, looser = 1): void {
  const algebra = soundMeasuresOf(mix);
  same("correlation", 1e-9 * looser);
  same("sideShare", 1e-9 * looser);
  same("iacc", 1e-6 * looser);
  // Beyond 120 dB it is the rounding of single precision that is measured.
  if (Math.abs(sound.sideToMidDb ?? 999) < 120) same("sideToMidDb", 1e-4);
  same("balanceDb", 1e-6 * looser);
  same("foldDownLossDb", 1e-3);
  same("integratedLufs", 1e-3);
  same("momentaryMaxLufs", 1e-3);
  same("shortTermMaxLufs", 1e-3);
  same("loudnessRangeLu", 1e-3);
  same("centroidHz", 1e-2);
  same("tiltDbPerOctave", 1e-3);
  // Where bands lose alike, either may be named.
  near("worst mono loss", lossAt(algebra.worstFoldDownHz), lossAt(sound.worstFoldDownHz), 1e-5);
  near("median", algebra.correlationOverTime?.median, sound.correlationOverTime?.median, 1e-7);
  near("percentile5", algebra.correlationOverTime?.percentile5, sound.correlationOverTime?.percentile5, 1e-7);
  sound.bands.forEach((band, k) => {
    const { levelDb, correlation, sideShare, foldDownLossDb } = algebra.bands[k];
    near(`level at ${band.centreHz} Hz`, levelDb, band.levelDb, 1e-3);
    near(`correlation at ${band.centreHz} Hz`, correlation, band.correlation, 1e-6);
    near(`side share at ${band.centreHz} Hz`, sideShare, band.sideShare, 1e-6);
    near(`mono loss at ${band.centreHz} Hz`, foldDownLossDb, band.foldDownLossDb, 1e-3);
  });
  sound.thirds.forEach(({ centreHz, levelDb }, k) => {
    near(`third at ${centreHz} Hz`, algebra.thirds[k].levelDb, levelDb, 1e-3);
  });
  const atMost = mix.peaksAtMost.truePeak;
  if (sound.truePeakDbtp === null) expect(atMost).toBe(0);
  else expect(gainToDb(atMost)).toBeGreaterThan(sound.truePeakDbtp - 1e-6);
  if (algebra.truePeakDbtp !== null) expectWithin(algebra.truePeakDbtp, sound.truePeakDbtp!, 1e-5, "dBTP");

  function lossAt(hz: number | null): number | null {
    return sound.bands.find(({ centreHz }) => centreHz === hz)?.foldDownLossDb ?? null;
  }

  function same(field: NumberField, tolerance: number): void {
    near(field, algebra[field], sound[field], tolerance);
  }

  function near(
    what: string,
    ours: number | null | undefined,
    theirs: number | null | undefined,
    by: number,
  ) {
    if (theirs === null || theirs === undefined) expect(ours ?? null, what).toBeNull();
    else expectWithin(ours ?? null, theirs, by, what);
  }
}
