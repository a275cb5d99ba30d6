import type { LevelReading } from "../../sound/measure/match.js";
import type { RigMeasures, SoundMeasures } from "../../sound/measure/measures.js";

/** What was measured of one sound by itself: of a render, or of a recording of the real rig. Plain data. */
export interface Reading {
  readonly id: string;
  readonly sound: SoundMeasures;
  /** Null for a recording: it has no wiring. */
  readonly rig: RigMeasures | null;
  /** Powers of the loudness gating blocks, for matching. */
  readonly blockPowers?: LevelReading["blockPowers"];
}

/** What matching must know of it. */
export const levelOf = ({ id, sound, blockPowers }: Reading): { readonly id: string } & LevelReading => ({
  id,
  integratedLufs: sound.integratedLufs,
  truePeakDbtp: sound.truePeakDbtp,
  blockPowers,
});
