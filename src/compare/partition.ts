import { modelOf } from "../wiring/blend.js";
import type { Wiring } from "../wiring/wiring.js";

/**
 * Shares wirings out so that every thread has about as much to do. Wirings that share costly pedals fed alike would be
 * best left together, but which do is only known once compiled; here the cost of a wiring is that of its pedals, and
 * the costliest goes to the thread that has least. The result of a comparison does not depend on the shares.
 *
 * @returns indices of `wirings`, one list a thread, each in ascending order; no list is empty
 */
export function partition(wirings: readonly Wiring[], threads: number): readonly (readonly number[])[] {
  const shares = Array.from({ length: Math.min(threads, wirings.length) }, () => ({
    cost: 0,
    members: [] as number[],
  }));
  const costs = wirings.map(costOf);
  const costliestFirst = costs.map((_, n) => n).sort((a, b) => costs[b] - costs[a] || a - b);
  for (const n of costliestFirst) {
    const least = shares.reduce((best, share) => (share.cost < best.cost ? share : best));
    least.cost += costs[n];
    least.members.push(n);
  }
  return shares.map(({ members }) => members.sort((a, b) => a - b));
}

/** Measuring and writing one render, in the units of `costOf`; see the bench of `compare`. */
const costOfTrack = 4;

function costOf(wiring: Wiring): number {
  return wiring.boxes.reduce((sum, box) => {
    if (box.kind !== "pedal") return sum;
    const isReverb = modelOf(box).kind === "Reverb";
    return sum + (isReverb ? 3 * box.outputs : 1);
  }, costOfTrack);
}
