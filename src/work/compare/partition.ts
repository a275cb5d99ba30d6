import type { Wiring } from "../../rig/wiring/wiring.js";
import { type CompileOptions, WiringCompiler } from "../render/compile.js";
import { GraphBuilder } from "../render/graph.js";
import { mixKey } from "../render/mix.js";

/**
 * Shares wirings out so that every thread has about as much to do, and wirings that share costly pedals fed alike are
 * rather left together. The result of a comparison does not depend on the shares.
 *
 * @returns indices of `wirings`, one list a thread, each in ascending order; no list is empty
 */
export function partition(
  wirings: readonly Wiring[],
  threads: number,
  options: Pick<CompileOptions, "rateHz" | "clips">,
): readonly (readonly number[])[] {
  const builder = new GraphBuilder();
  const needs = wirings.map((wiring) => {
    const sides = new WiringCompiler(wiring, builder, options).destination();
    const isMono = new Set(sides.map(mixKey)).size === 1;
    return { nodes: builder.nodesOf(sides), track: isMono ? monoTrackNs : trackNs };
  });
  const costOf = (members: readonly number[]): number => {
    const nodes = new Set(members.flatMap((n) => [...needs[n].nodes]));
    let cost = members.reduce((sum, n) => sum + needs[n].track, 0);
    for (const { costNs, outputs } of nodes) cost += outputs.length * costNs;
    return cost;
  };
  const alone = wirings.map((_, n) => costOf([n]));
  const costliestFirst = wirings.map((_, n) => n).sort((a, b) => alone[b] - alone[a] || a - b);
  let shares: number[][] = Array.from({ length: Math.min(threads, wirings.length) }, () => []);
  for (const n of costliestFirst) {
    const costs = shares.map((members) => costOf([...members, n]));
    shares[costs.indexOf(Math.min(...costs))].push(n);
  }
  for (let better = improved(shares, costOf); better; better = improved(shares, costOf)) shares = better;
  return shares.map((members) => members.sort((a, b) => a - b));
}

/** The best shares that one move or one exchange makes of these; null when none costs less. */
function improved(shares: number[][], costOf: (members: readonly number[]) => number): number[][] | null {
  let best: number[][] | null = null;
  let least = heaviest(shares.map(costOf));
  for (const candidate of neighbours(shares)) {
    const most = heaviest(candidate.map(costOf));
    if (most >= least) continue;
    least = most;
    best = candidate;
  }
  return best;
}

/** The most that a share costs, and a little for all together. */
const heaviest = (costs: readonly number[]): number =>
  Math.max(...costs) + 1e-3 * costs.reduce((sum, cost) => sum + cost, 0);

function* neighbours(shares: readonly (readonly number[])[]): Generator<number[][]> {
  for (const [from, giving] of shares.entries()) {
    for (const [to, taking] of shares.entries()) {
      if (to === from) continue;
      for (const given of giving) {
        if (giving.length > 1) yield exchanged(shares, from, to, given, null);
        if (from < to) for (const back of taking) yield exchanged(shares, from, to, given, back);
      }
    }
  }
}

const exchanged = (
  shares: readonly (readonly number[])[],
  from: number,
  to: number,
  given: number,
  back: number | null,
): number[][] =>
  shares.map((members, share) => {
    const kept = members.filter((n) => n !== given && n !== back);
    if (share === from) return back === null ? kept : [...kept, back];
    return share === to ? [...kept, given] : kept;
  });

/** Measuring and writing one render, as `PedalModel.costNs`. */
const trackNs = 190;
const monoTrackNs = 115;
