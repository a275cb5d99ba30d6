import type { ReturnTrim, ReturnTrims, Rig } from "../../rig/model/rig.js";
import { chooseRoutings, type RoutingChoice } from "../../rig/routings/chooseRoutings.js";
import { drawMono } from "../../rig/routings/drawPlan.js";
import type { Routing } from "../../rig/routings/routing.js";
import { tailRule } from "../render/tail.js";
import { equalWet, type ReturnsJob } from "./equalWet.js";

/** The sound that levels are measured on. */
export interface ReturnsSound
  extends Pick<ReturnsJob, "take" | "rateHz" | "clips" | "interpolation" | "onFrames"> {
  /** Tails are cut here at the latest. */
  readonly tailSeconds: number;
}

/** True where some return's level is to be measured. */
export const leavesReturnsOpen = (rig: Rig, routings: readonly Routing[]): boolean =>
  rig.mixer.returnDb === null && openWirings(routings).length > 0;

/**
 * What measuring finds of every return whose level the rig leaves open, by plan and unit. Returns that the rig sets and
 * wirings drawn by hand are left as they are.
 * @param routings  of this rig, drawn without trims
 */
export function measuredReturns(
  rig: Rig,
  routings: readonly Routing[],
  { tailSeconds, ...sound }: ReturnsSound,
): ReturnTrims {
  if (!leavesReturnsOpen(rig, routings)) return {};
  const open = openWirings(routings);
  const wirings = open.map(({ wiring }) => wiring);
  const { wiring: inLine } = drawMono(rig);
  const found = equalWet({ wirings, inLine, tail: tailRule(rig, tailSeconds), ...sound });
  return Object.fromEntries(
    open.map(({ id }, n) => [
      id,
      Object.fromEntries(
        found[n].returns.map(({ unit, trimDb, wetToDryDb, by }): [string, ReturnTrim] => [
          unit,
          { trimDb, wetToDryDb, by },
        ]),
      ),
    ]),
  );
}

/** The rig with what measuring finds, and its routings drawn anew with it. */
export function withMeasuredReturns(
  rig: Rig,
  choice: RoutingChoice,
  sound: ReturnsSound,
): { readonly rig: Rig; readonly choice: RoutingChoice } {
  if (!leavesReturnsOpen(rig, choice.routings)) return { rig, choice };
  return redrawn({ ...rig, returnTrims: measuredReturns(rig, choice.routings, sound) }, choice);
}

/** The same routings, of a rig whose returns are measured. */
export function redrawn(rig: Rig, { routings, reference }: RoutingChoice) {
  const ids = routings.map(({ id }) => id);
  return { rig, choice: chooseRoutings(rig, ids, reference?.id ?? null) };
}

/** Plans in which a unit returns, fully wet, under the plan's own id. */
const openWirings = (routings: readonly Routing[]) =>
  routings.flatMap(({ plan, wiring }) =>
    plan && wiring?.boxes.some((box) => box.kind === "pedal" && box.fullyWet)
      ? [{ id: plan.id, wiring }]
      : [],
  );
