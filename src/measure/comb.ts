import { gainToDb } from "../dsp/units.js";
import type { Comb } from "./measures.js";

/** Notches that are listed. */
const notchCount = 5;
/** Copies further apart are heard as two sounds, or as an echo, not as a colour; Wallach, Newman and Rosenzweig 1949. */
const longestMs = 40;
/** A fainter copy makes ripples below 2 dB (20 log10 of (1 + 0.1)/(1 - 0.1)); common practice, no source. */
const faintestToFirst = 0.1;

/** One arrival of the dry signal at an output. */
export interface Arrival {
  readonly delayMs: number;
  /** Signed factor. */
  readonly gain: number;
}

/**
 * The comb that the strongest late copy of the dry signal makes with the strongest copy, on the side where it is
 * strongest: y(t) = x(t) + g x(t - tau) has its notches at (2k+1) / (2 tau), with g < 0 at k / tau, 0 Hz included.
 *
 * @param left   arrivals at the left output; copies of one delay are added
 * @param right  arrivals at the right output
 * @returns null when no side has two copies up to 40 ms apart, the weaker within 20 dB of the stronger
 * Source: closed form.
 */
export function combOf(left: readonly Arrival[], right: readonly Arrival[]): Comb | null {
  const leftCopy = lateCopy(left);
  const rightCopy = lateCopy(right);
  const stronger = [leftCopy, rightCopy]
    .filter((copy) => copy !== null)
    .reduce<Copy | null>((best, copy) => (best && best.share >= copy.share ? best : copy), null);
  if (stronger === null) return null;
  const both = leftCopy !== null && rightCopy !== null && same(leftCopy, rightCopy);
  const inverted = stronger.ratio < 0;
  return {
    delayMs: stronger.delayMs,
    levelDb: gainToDb(stronger.share),
    inverted,
    side: both ? "both" : stronger === leftCopy ? "left" : "right",
    notchesHz: combNotchesHz(stronger.delayMs, inverted),
  };
}

/** The first five frequencies that a copy `delayMs` late weakens most, in Hz. */
export function combNotchesHz(delayMs: number, inverted: boolean): number[] {
  return Array.from({ length: notchCount }, (_, k) => ((inverted ? k : k + 0.5) * 1000) / delayMs);
}

interface Copy {
  readonly delayMs: number;
  /** Weaker over stronger: signed, and its size. */
  readonly ratio: number;
  readonly share: number;
}

function lateCopy(arrivals: readonly Arrival[]): Copy | null {
  const merged = mergedByDelay(arrivals);
  const [main] = merged;
  if (main === undefined) return null;
  const other = merged.slice(1).find(({ delayMs }) => Math.abs(delayMs - main.delayMs) <= longestMs);
  if (other === undefined) return null;
  const ratio = other.gain / main.gain;
  if (Math.abs(ratio) < faintestToFirst) return null;
  return { delayMs: Math.abs(other.delayMs - main.delayMs), ratio, share: Math.abs(ratio) };
}

/** Copies of one delay added, the strongest first; what cancels is gone. */
function mergedByDelay(arrivals: readonly Arrival[]): Arrival[] {
  const gains = new Map<number, number>();
  for (const { delayMs, gain } of arrivals) gains.set(delayMs, (gains.get(delayMs) ?? 0) + gain);
  return [...gains]
    .map(([delayMs, gain]) => ({ delayMs, gain }))
    .filter(({ gain }) => gain !== 0)
    .sort((a, b) => Math.abs(b.gain) - Math.abs(a.gain));
}

const same = (a: Copy, b: Copy): boolean =>
  Math.abs(a.delayMs - b.delayMs) < 1e-6 && Math.abs(a.ratio - b.ratio) < 0.01;
