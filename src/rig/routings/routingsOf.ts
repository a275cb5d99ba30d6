import { chainOf } from "../model/chain.js";
import type { Pedal, Rig } from "../model/rig.js";
import type { DrawnRouting } from "../wiring/buildSheet.js";
import type { Wiring } from "../wiring/wiring.js";
import { asGiven } from "./asGiven.js";
import { dualMono } from "./dualMono.js";
import { handDrawnRoutings } from "./handDrawn.js";
import { capital, twoOfEach, unitWords } from "./monoUnits.js";
import { oneSide } from "./oneSide.js";
import { parallel } from "./parallel.js";
import { parallelAfter } from "./parallelAfter.js";
import type { Routing, RoutingId } from "./routing.js";
import { routingIds } from "./routing.js";
import { seriesMono } from "./seriesMono.js";
import { stereoUnit } from "./stereoUnit.js";
import { summed } from "./summed.js";
import { unitFirst } from "./unitFirst.js";

interface Recipe {
  readonly draw: (rig: Rig) => DrawnRouting;
  readonly label: (units: readonly Pedal[]) => string;
  readonly says: string;
}

const recipes: Readonly<Record<RoutingId, Recipe>> = {
  "series-mono": {
    draw: seriesMono,
    label: () => "All in mono",
    says: "The whole rig in mono, in its own order: the simplest board, and no width.",
  },
  "unit-first": {
    draw: unitFirst,
    label: (units) => `${capital(unitWords(units))} first`,
    says: "The mono unit moves ahead of the split: width stays, the order and so the tone change.",
  },
  "dual-mono": {
    draw: dualMono,
    label: (units) => `${twoOfEach(units)}, one a side`,
    says: "A unit for each side: keeps order and width, costs a second unit, its space and its outlet.",
  },
  parallel: {
    draw: parallel,
    label: (units) => `${capital(unitWords(units))} beside, from a split`,
    says: "The unit runs fully wet beside the stereo pedals and returns to both sides; it no longer hears them.",
  },
  "parallel-after": {
    draw: parallelAfter,
    label: (units) => `${capital(unitWords(units))} beside, after a sum`,
    says: "Left and right go on; their sum feeds the unit, fully wet, which returns to both sides. Keeps the order.",
  },
  "one-side": {
    draw: oneSide,
    label: (units) => `${capital(unitWords(units))} on the left only`,
    says: "The unit on one side, the other straight through: balance and tone differ left to right.",
  },
  summed: {
    draw: summed,
    label: (units) => `Summed into the ${unitWords(units)}`,
    says: "The trap: both sides summed into the unit and split again. The width made before it is gone.",
  },
  "stereo-unit": {
    draw: stereoUnit,
    label: (units) => `Stereo ${unitWords(units)} instead`,
    says: "A stereo unit in its place: another purchase, and another sound. The reference for width.",
  },
};

/**
 * Every way to wire a rig, in the order of `routingIds`, then the hand-drawn ones. A rig without a mono unit after the
 * split has one wiring, `as-given`; the eight are then listed as not possible, with the reason.
 * @throws UserError when a hand-drawn wiring does not hold together
 */
export function routingsOf(rig: Rig): readonly Routing[] {
  const { units, stages } = chainOf(rig);
  const drawn = handDrawnRoutings(rig);
  if (units.length > 0) return [...routingIds.map((id) => fromRecipe(id, rig, units)), ...drawn];
  const reason = stages.length > 0 ? noUnitReason : noSplitReason;
  return [fromAsGiven(rig, reason), ...routingIds.map((id) => notPossible(id, reason)), ...drawn];
}

/** The wiring of one routing alone, as in `routingsOf`; null when there is no such routing or it is not possible. */
export function wiringOf(rig: Rig, id: string): Wiring | null {
  const { units } = chainOf(rig);
  const recipe = routingIds.find((known) => known === id);
  if (recipe) return units.length > 0 ? recipes[recipe].draw(rig).wiring : null;
  if (id === "as-given") return units.length > 0 ? null : asGiven(rig).wiring;
  const hand = rig.wirings[id];
  return hand ? (handDrawnRoutings({ ...rig, wirings: { [id]: hand } })[0]?.wiring ?? null) : null;
}

/** The routing that others are compared with: the stereo unit, or the one wiring there is. */
export function referenceOf(routings: readonly Routing[]): Routing | undefined {
  const possible = routings.filter(({ wiring }) => wiring !== null);
  return possible.find(({ id }) => id === "stereo-unit") ?? possible[0];
}

const noUnitReason =
  "No pedal after the split has only one input and one output: the rig can be wired as it stands.";
const noSplitReason = "No pedal of this rig has a stereo output: there is no split, and nothing to lose.";

function fromRecipe(id: RoutingId, rig: Rig, units: readonly Pedal[]): Routing {
  const { draw, label, says } = recipes[id];
  return { id, label: label(units), says, reason: null, ...draw(rig) };
}

function fromAsGiven(rig: Rig, says: string): Routing {
  return { id: "as-given", label: "As it stands", says, reason: null, ...asGiven(rig) };
}

function notPossible(id: RoutingId, reason: string): Routing {
  const { label, says } = recipes[id];
  return { id, label: label([]).trim(), says, wiring: null, reason, cautions: [] };
}
