import { type Fault, UserError } from "../../text/userError.js";
import { andList } from "../../text/words.js";
import type { HandWiring, Rig } from "../model/rig.js";
import { checkWiring } from "../wiring/check.js";
import { withLoading } from "../wiring/loading.js";
import { looseEnds } from "../wiring/looseEnds.js";
import type { Wiring } from "../wiring/wiring.js";
import { drawHand } from "./drawHand.js";
import { handPedalOf } from "./handPedal.js";
import type { Routing } from "./routing.js";

/** One thing wrong with a hand-drawn wiring, with its path in the rig: `["wirings", id, "cables", 2]`. */
export interface HandFault {
  readonly message: string;
  readonly path: readonly (string | number)[];
  /** It is the key at the end of the path that is wrong, not what stands under it. */
  readonly atKey?: boolean;
}

/** The rig's own wirings as routings. @throws UserError naming each fault and the wiring it is in */
export function handDrawnRoutings(rig: Rig): readonly Routing[] {
  const faults = handFaults(rig);
  if (faults.length > 0)
    throw new UserError(
      faults.map(({ message, path }): Fault => ({ message: `${path.slice(0, 2).join(".")}: ${message}` })),
    );
  return Object.entries(rig.wirings).map(([id, hand]) => {
    const wiring = withLoading(drawHand(hand, rig), rig);
    return {
      id,
      label: hand.label,
      says: "Drawn by hand in the rig file.",
      wiring,
      reason: null,
      cautions: looseEnds(wiring, rig),
      plan: null,
      doubt: whyIncomplete(hand, rig),
    };
  });
}

/** A drawing without a pedal of the rig is heard and measured, but no answer to who plays that pedal. */
function whyIncomplete({ boxes }: HandWiring, rig: Rig): string | null {
  const there = Object.values(boxes).map((box) =>
    box.box === "pedal" ? handPedalOf(rig, box)?.standsFor : null,
  );
  const missing = rig.pedals.filter((pedal) => !there.includes(pedal)).map(({ name }) => name);
  return missing.length === 0 ? null : `It leaves out ${andList(missing)}.`;
}

/** Everything wrong with the hand-drawn wirings of a rig; the rig reader turns paths into lines. */
export const handFaults = (rig: Rig): readonly HandFault[] =>
  Object.entries(rig.wirings).flatMap(([id, hand]) =>
    faultsOf(hand, rig).map((fault) => ({ ...fault, path: ["wirings", id, ...fault.path] })),
  );

function faultsOf(hand: HandWiring, rig: Rig): readonly HandFault[] {
  const unknown = Object.entries(hand.boxes).flatMap(([id, box]) =>
    box.box === "pedal" && !handPedalOf(rig, box)
      ? [
          {
            message: `"${id}" is the pedal "${box.pedal}", which this rig does not have.`,
            path: ["boxes", id, "pedal"],
          },
        ]
      : [],
  );
  if (unknown.length > 0) return unknown;
  const unreadable = hand.cables.flatMap(({ from, to }, n) =>
    [from, to]
      .filter((end) => !end.includes(":"))
      .map((end) => ({
        message: `"${end}" names no jack; write box:jack, as in "take:out".`,
        path: ["cables", n],
      })),
  );
  if (unreadable.length > 0) return unreadable;
  const wiring = drawHand(hand, rig);
  const faults = checkWiring(wiring).map(({ message, cable, box }) => ({
    message,
    path: cable !== null ? ["cables", cable] : box !== null && box in hand.boxes ? ["boxes", box] : [],
    atKey: cable === null,
  }));
  return faults.some(({ path }) => path[0] === "cables") ? faults : [...faults, ...deadEnds(wiring, hand)];
}

/** Boxes from which nothing goes on: what they do is not heard. */
const deadEnds = ({ boxes, cables }: Wiring, hand: HandWiring): readonly HandFault[] =>
  boxes
    .filter(({ id }) => id in hand.boxes && !cables.some(({ from }) => from.box === id))
    .map(({ id }) => ({
      message: `what leaves "${id}" goes nowhere; cable it on or take it out.`,
      path: ["boxes", id],
      atKey: true,
    }));
