import { integratedLufs } from "../../../sound/measure/loudness.js";

/** A choice as it is played within a loop. */
export interface LoopSound {
  readonly id: string;
  /** Left and right, the loop's frames alone. */
  readonly sides: readonly Float32Array[];
}

/**
 * Gains that bring all choices to one loudness within a loop: those of the whole take, and on top what the loop differs
 * by, all brought down to the softest, so that no peak rises. A choice without loudness there (silence) keeps its gain.
 *
 * @param matchedDb  gains that match the whole take, by id
 * @param folded     as it is played: (left + right) / 2 on both sides
 */
export function loopGainsDb(
  sounds: readonly LoopSound[],
  rateHz: number,
  matchedDb: ReadonlyMap<string, number>,
  folded: boolean,
): ReadonlyMap<string, number> {
  const found = sounds.map(({ id, sides }) => {
    const wholeDb = matchedDb.get(id) ?? 0;
    const lufs = integratedLufs(folded ? foldedSides(sides) : sides, rateHz);
    return { id, wholeDb, playedLufs: lufs === null ? null : lufs + wholeDb };
  });
  const softest = Math.min(...found.map(({ playedLufs }) => playedLufs ?? Number.POSITIVE_INFINITY));
  return new Map(
    found.map(({ id, wholeDb, playedLufs }) => [
      id,
      playedLufs === null ? wholeDb : wholeDb + softest - playedLufs,
    ]),
  );
}

function foldedSides([left, right]: readonly Float32Array[]): readonly Float32Array[] {
  const mono = left.map((x, n) => (x + right[n]) / 2);
  return [mono, mono];
}
