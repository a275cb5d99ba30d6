import type { CountIn } from "../../contract/recorder.js";

/** When each count falls, ms from the beginning; the recording begins at `lengthMs`. */
export interface CountPlan {
  readonly atMs: readonly number[];
  readonly lengthMs: number;
}

export function countPlan(countIn: CountIn): CountPlan {
  const [counts, eachMs] =
    countIn.kind === "none"
      ? [0, 0]
      : countIn.kind === "seconds"
        ? [countIn.seconds, 1000]
        : [countIn.beats, 60_000 / countIn.perMinute];
  return { atMs: Array.from({ length: counts }, (_, n) => n * eachMs), lengthMs: counts * eachMs };
}

/** Counts that are left at a time, the one that is counted then among them. */
export const countsLeft = ({ atMs }: CountPlan, ms: number): number =>
  atMs.length - Math.max(1, atMs.filter((at) => at <= ms).length) + 1;
