import type { Pedal, Rig } from "./rig.js";

/** A stretch of the rig after the split: one stereo pedal, or a run of mono units that stand side by side. */
export type Stage =
  | { readonly kind: "stereo"; readonly pedal: Pedal }
  | { readonly kind: "units"; readonly pedals: readonly Pedal[] };

/** The rig as routings see it: what stands ahead of the split, and what after. */
export interface Chain {
  /** Mono pedals before the split: nothing to decide about them. */
  readonly ahead: readonly Pedal[];
  /** From the split on; empty for a mono rig. */
  readonly stages: readonly Stage[];
  /** Mono units: pedals with one input and one output after the split. */
  readonly units: readonly Pedal[];
  readonly stereoPedals: readonly Pedal[];
}

/** The split is at the first pedal with two outputs, or ahead of all at an instrument that has two. */
export function chainOf(rig: Pick<Rig, "pedals" | "instrument">): Chain {
  const first = rig.instrument.outputs === 2 ? 0 : rig.pedals.findIndex((pedal) => pedal.jacks !== "mono");
  if (first < 0) return { ahead: rig.pedals, stages: [], units: [], stereoPedals: [] };
  const stages: Stage[] = [];
  for (const pedal of rig.pedals.slice(first)) {
    const last = stages.at(-1);
    if (pedal.jacks !== "mono") stages.push({ kind: "stereo", pedal });
    else if (last?.kind === "units")
      stages[stages.length - 1] = { kind: "units", pedals: [...last.pedals, pedal] };
    else stages.push({ kind: "units", pedals: [pedal] });
  }
  const after = rig.pedals.slice(first);
  return {
    ahead: rig.pedals.slice(0, first),
    stages,
    units: after.filter((pedal) => pedal.jacks === "mono"),
    stereoPedals: after.filter((pedal) => pedal.jacks !== "mono"),
  };
}
