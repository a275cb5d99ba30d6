import type { Routing } from "../../rig/routings/routing.js";
import { footswitchesOf } from "../../rig/wiring/footswitches.js";
import type { Wiring } from "../../rig/wiring/wiring.js";
import { chooseStates, type StateChoice } from "./chooseStates.js";
import type { StateLevels } from "./measureStates.js";
import type { SwitchState } from "./states.js";
import { pressesOf, type Rendition, readingOf, renditionsOf } from "./steps.js";
import type { RoutingSwitches } from "./switchTypes.js";

/** What is to be rendered of one routing. */
export interface SwitchPlan {
  readonly id: string;
  readonly label: string;
  readonly wiring: Wiring;
  readonly states: readonly SwitchState[];
  readonly renditions: readonly Rendition[];
}

/**
 * What is to be rendered to learn what every footswitch does; routings without a wiring are left out.
 * @throws UserError when all states are asked for and there are too many
 */
export const plansOf = (
  routings: readonly Pick<Routing, "id" | "label" | "wiring">[],
  choice: StateChoice,
): readonly SwitchPlan[] =>
  routings.flatMap(({ id, label, wiring }) => {
    if (!wiring) return [];
    const states = chooseStates(wiring, choice);
    return [{ id, label, wiring, states, renditions: renditionsOf(wiring, states) }];
  });

/** Routings shared out so that every thread renders about as much; states of one routing share most, so stay together. */
export function sharesOf(plans: readonly SwitchPlan[], threads: number): readonly (readonly SwitchPlan[])[] {
  const shares = Array.from({ length: Math.max(1, Math.min(threads, plans.length)) }, () => ({
    cost: 0,
    plans: [] as SwitchPlan[],
  }));
  const cost = ({ renditions, wiring }: SwitchPlan) => renditions.length * wiring.boxes.length;
  for (const plan of [...plans].sort((a, b) => cost(b) - cost(a))) {
    const least = shares.reduce((best, share) => (share.cost < best.cost ? share : best));
    least.cost += cost(plan);
    least.plans.push(plan);
  }
  return shares.map((share) => share.plans);
}

/** All wirings of a share, in the order in which `foundOf` reads their levels. */
export const wiringsOf = (share: readonly SwitchPlan[]): readonly Wiring[] =>
  share.flatMap(({ renditions }) => renditions.map(({ wiring }) => wiring));

/** What was found, in the order of the plans; `levels` are those of `wiringsOf` each share. */
export function foundOf(
  plans: readonly SwitchPlan[],
  shares: readonly (readonly SwitchPlan[])[],
  levels: readonly (readonly StateLevels[])[],
): readonly RoutingSwitches[] {
  const known = new Map<SwitchPlan, readonly StateLevels[]>();
  for (const [part, share] of shares.entries()) {
    let first = 0;
    for (const plan of share) {
      known.set(plan, levels[part].slice(first, first + plan.renditions.length));
      first += plan.renditions.length;
    }
  }
  return plans.map((plan) => assembled(plan, known.get(plan) ?? []));
}

function assembled(
  { id, label, wiring, states, renditions }: SwitchPlan,
  levels: readonly StateLevels[],
): RoutingSwitches {
  const find = (state: string, muted: number | null) =>
    levels[renditions.findIndex((each) => each.state === state && each.muted === muted)];
  const readings = states.map((state) => readingOf(state, wiring, find(state.id, null)));
  const switches = footswitchesOf(wiring);
  return {
    id,
    label,
    switches: switches.map((box) => box.label),
    states: readings,
    steps: pressesOf(wiring, readings, (state, place) => find(state, place)?.integratedLufs ?? null),
  };
}
