import { integratedLufsOfBlocks } from "./loudness.js";

/** Programme loudness that matched files aim for: EBU R 128 v5 (2023). */
const programmeLufs = -23;
/** Permitted true peak: EBU R 128 v5 (2023). */
const permittedPeakDbtp = -1;

/** What matching must know of each render; null where it is silent. */
export interface LevelReading {
  readonly integratedLufs: number | null;
  readonly truePeakDbtp: number | null;
  /**
   * Powers of the 400 ms gating blocks (`StereoMeter.gatingBlocks`). With them a file measures the target whatever its
   * gain: the absolute gate stays at -70 LUFS while blocks move past it. Without, loudness moves dB for dB.
   */
  readonly blockPowers?: Float64Array | undefined;
}

export interface Matching {
  /** Loudness of every matched file; null when all are silent. */
  readonly targetLufs: number | null;
  /** One a reading; null for a silent one. */
  readonly gainsDb: readonly (number | null)[];
}

/**
 * Gains that bring all renders to one integrated loudness with no true peak above the limit, so that louder never wins.
 * The target is `ceilingLufs`, or the loudest that all can reach below it: the least of limit - peak + loudness.
 *
 * @param limits       `limitDbtp`: true peak that none may exceed, default -1;
 *                     `ceilingLufs`: loudness that is loud enough, default -23
 * Source: EBU R 128 v5 (2023) for both defaults; gates of ITU-R BS.1770.
 */
export function matchGains(
  readings: readonly LevelReading[],
  { limitDbtp = permittedPeakDbtp, ceilingLufs = programmeLufs } = {},
): Matching {
  const heard = readings.map(({ integratedLufs, truePeakDbtp, blockPowers }) =>
    integratedLufs === null || truePeakDbtp === null ? null : { integratedLufs, truePeakDbtp, blockPowers },
  );
  const reachable = heard
    .filter((reading) => reading !== null)
    .map((reading) => lufsAfter(reading, limitDbtp - reading.truePeakDbtp));
  if (reachable.length === 0) return { targetLufs: null, gainsDb: heard.map(() => null) };
  const targetLufs = Math.min(ceilingLufs, ...reachable);
  return {
    targetLufs,
    gainsDb: heard.map(
      (reading) => reading && Math.min(gainTo(reading, targetLufs), limitDbtp - reading.truePeakDbtp),
    ),
  };
}

interface Heard {
  readonly integratedLufs: number;
  readonly blockPowers?: Float64Array | undefined;
}

/** Integrated loudness once a gain is given, gated anew. */
function lufsAfter({ integratedLufs, blockPowers }: Heard, gainDb: number): number {
  const power = 10 ** (gainDb / 10);
  const gated = blockPowers && integratedLufsOfBlocks(blockPowers.map((block) => block * power));
  return gated ?? integratedLufs + gainDb;
}

/** Loudness and gain move almost alike, so correcting the gain by what is missing ends after a few turns. */
const mostTurns = 40;
const closeEnoughLu = 1e-9;

function gainTo(reading: Heard, targetLufs: number): number {
  let gainDb = targetLufs - reading.integratedLufs;
  for (let turn = 0; turn < mostTurns; turn++) {
    const missing = targetLufs - lufsAfter(reading, gainDb);
    if (Math.abs(missing) < closeEnoughLu) break;
    gainDb += missing;
  }
  return gainDb;
}
