import { type LevelReading, matchGains } from "../../sound/measure/match.js";

export const truePeakLimitDbtp = -1;

export interface MatchedLevels {
  readonly on: boolean;
  /** Loudness of every matched file; null when not matched, or nothing sounds. */
  readonly targetLufs: number | null;
  /** Gain given to each file; wirings that are silent get 0. */
  readonly gainDb: ReadonlyMap<string, number>;
}

/**
 * One loudness for all files, or, with `match` off, one gain for all: 0 dB, or what brings the highest true peak down
 * to the limit. Fair listening needs the first; how wirings differ in level is heard with the second.
 */
export function matchedLevels(
  readings: readonly ({ readonly id: string } & LevelReading)[],
  match: boolean,
): MatchedLevels {
  if (!match) {
    const highest = Math.max(...readings.map(({ truePeakDbtp }) => truePeakDbtp ?? Number.NEGATIVE_INFINITY));
    const gain = Math.min(0, truePeakLimitDbtp - highest);
    return { on: false, targetLufs: null, gainDb: new Map(readings.map(({ id }) => [id, gain])) };
  }
  const { targetLufs, gainsDb } = matchGains(readings, { limitDbtp: truePeakLimitDbtp });
  return { on: true, targetLufs, gainDb: new Map(readings.map(({ id }, n) => [id, gainsDb[n] ?? 0])) };
}
