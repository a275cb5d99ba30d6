import type { AxisGroup } from "../../rig/model/axis.js";
import type { Rig } from "../../rig/model/rig.js";
import { chooseRoutings } from "../../rig/routings/chooseRoutings.js";
import { stereoUnitId } from "../../rig/routings/routing.js";
import { UserError } from "../../text/userError.js";
import type { CompileOptions } from "../render/compile.js";
import { widthKept } from "./figures.js";
import { gridSize, stepsOf } from "./grid.js";
import { type SweepPlan, variantsOf } from "./plan.js";
import { tailFrames } from "./tailFrames.js";
import { type Wishes, wishedMeasures } from "./wishes.js";

/** What a person asked for, in words that are read already. */
export interface SweepRequest {
  readonly groups: readonly AxisGroup[];
  readonly sample: number | null;
  readonly seed: number;
  /** Words of the routings wanted; null for all. */
  readonly routings: readonly string[] | null;
  readonly reference: string | null;
  readonly tolerancePercent: number | null;
  readonly draws: number;
  /** The tail is cut here at the latest. */
  readonly tailSeconds: number;
}

/** More than this takes a sample. */
const mostResults = 2_000_000;

/**
 * What to compute, with its length. @throws UserError for words that do not go with the rig, too large a grid, or
 * nothing to vary
 */
export function planSweep(
  rig: Rig,
  request: SweepRequest,
  wishes: Wishes,
  take: { readonly frames: number },
  options: CompileOptions,
): { plan: SweepPlan; labels: Record<string, string> } {
  const { groups, seed, tolerancePercent } = request;
  const choice = chooseRoutings(rig, request.routings, request.reference);
  const possible = choice.routings.filter(({ wiring }) => wiring !== null);
  const routings = possible.map(({ id }) => id);
  const reference = request.reference ?? routings.find((id) => id === stereoUnitId) ?? null;
  const tolerance = tolerancePercent === null ? null : { percent: tolerancePercent, draws: request.draws };
  const size = gridSize(groups);
  const sample = request.sample !== null && request.sample < size ? request.sample : null;
  const plan = { groups, sample, seed, routings, reference, tolerance };
  refuse(plan, wishes, size);
  const tail = tailFrames(rig, plan, request.tailSeconds, options);
  return {
    plan: { ...plan, frames: take.frames + tail },
    labels: Object.fromEntries(possible.map(({ id, label }) => [id, label])),
  };
}

/** Results of a plan: settings by routings, and draws. */
function resultCount(plan: Pick<SweepPlan, "groups" | "sample" | "routings" | "tolerance">): number {
  const settings = plan.sample ?? gridSize(plan.groups);
  return plan.routings.reduce((sum, routing) => sum + settings * variantsOf(plan, routing), 0);
}

function refuse(plan: Omit<SweepPlan, "frames">, wishes: Wishes, size: number): void {
  if (size < 2 && plan.tolerance === null) {
    throw new UserError(
      'nothing is varied. Name knobs and values, as in --vary "mixer.returnDb=-30..6/37", or write a sweep block in the rig.',
    );
  }
  if (plan.tolerance !== null && plan.routings.every((routing) => variantsOf(plan, routing) === 1)) {
    throw new UserError("--tolerance is about two units, and dual-mono is not among the routings.");
  }
  if (size > Number.MAX_SAFE_INTEGER) {
    const steps = plan.groups.map(stepsOf).join(" by ");
    throw new UserError(
      `${steps} steps are ${size.toPrecision(2)} settings; up to 2^53, about 9.0e+15, can be told apart, in a sample too. Vary fewer knobs, or write fewer steps.`,
    );
  }
  const results = resultCount(plan);
  if (results > mostResults) {
    throw new UserError(
      `${results} results are more than the ${mostResults} that one sweep holds. Take a sample, as in --sample 10000, or fewer steps.`,
    );
  }
  if (plan.reference === null && wishedMeasures(wishes).includes(widthKept)) {
    throw new UserError(
      `${widthKept} compares with the stereo-unit routing, which is not among the routings. Add it, or name a --reference.`,
    );
  }
}
