import { distance } from "fastest-levenshtein";

/**
 * The known word that a wrong one was most likely meant to be, or null when none is near.
 *
 * Near: at most a third of its letters changed (Levenshtein 1966, edits of one letter; one of two or
 * three letters, two from four letters on), or one is the beginning of the other (`delay` for `delayMs`). Capitals, spaces, hyphens and
 * underscores do not count.
 */
export function nearest(word: string, known: readonly string[]): string | null {
  const asked = plain(word);
  if (asked === "" || asked.length > 80) return null;
  let best: string | null = null;
  let bestScore = Number.POSITIVE_INFINITY;
  for (const candidate of known) {
    const score = scoreOf(asked, plain(candidate));
    if (score < bestScore) {
      best = candidate;
      bestScore = score;
    }
  }
  return best;
}

/** ` Did you mean tremolo?`, or nothing. */
export function didYouMean(word: string, known: readonly string[]): string {
  const near = nearest(word, known);
  return near === null ? "" : ` Did you mean ${near}?`;
}

function scoreOf(asked: string, known: string): number {
  const edits = distance(asked, known);
  const allowed = asked.length < 4 ? asked.length >> 1 : Math.max(2, Math.floor(asked.length / 3));
  if (edits <= allowed) return edits;
  const starts = asked.length >= 3 && (known.startsWith(asked) || asked.startsWith(known));
  return starts ? 50 + edits : Number.POSITIVE_INFINITY;
}

const plain = (word: string): string => word.toLowerCase().replace(/[\s_-]+/g, "");
