/** Programme loudness that matched files aim for: EBU R 128 v5 (2023). */
const programmeLufs = -23;
/** Permitted true peak: EBU R 128 v5 (2023). */
const permittedPeakDbtp = -1;

/** What matching must know of each render; null where it is silent. */
export interface LevelReading {
  readonly integratedLufs: number | null;
  readonly truePeakDbtp: number | null;
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
 * @param limitDbtp    true peak that none may exceed; default -1
 * @param ceilingLufs  loudness that is loud enough; default -23
 * Source: EBU R 128 v5 (2023) for both defaults; loudness and peak move with the gain, dB for dB.
 */
export function matchGains(
  readings: readonly LevelReading[],
  { limitDbtp = permittedPeakDbtp, ceilingLufs = programmeLufs } = {},
): Matching {
  const heard = readings.map(({ integratedLufs, truePeakDbtp }) =>
    integratedLufs === null || truePeakDbtp === null ? null : { integratedLufs, truePeakDbtp },
  );
  const reachable = heard
    .filter((reading) => reading !== null)
    .map(({ integratedLufs, truePeakDbtp }) => limitDbtp - truePeakDbtp + integratedLufs);
  if (reachable.length === 0) return { targetLufs: null, gainsDb: heard.map(() => null) };
  const targetLufs = Math.min(ceilingLufs, ...reachable);
  return { targetLufs, gainsDb: heard.map((reading) => reading && targetLufs - reading.integratedLufs) };
}
