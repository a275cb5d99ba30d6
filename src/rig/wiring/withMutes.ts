import type { Rig } from "../model/rig.js";
import { returnsOf } from "./returns.js";
import { realBoxes } from "./soldBoxes.js";
import type { Wiring } from "./wiring.js";

/**
 * The wiring with the mutes that its real boxes have, all of them open: of a mixer's returns, which are what a player
 * mutes, and of every output of a splitter.
 */
export function withMutes(wiring: Wiring, rig: Pick<Rig, "boxes" | "onHand">): Wiring {
  const real = realBoxes(wiring, rig);
  return {
    cables: wiring.cables,
    boxes: wiring.boxes.map((box) => {
      if (!real.get(box.id)?.mutes) return box;
      if (box.kind === "splitter") return { ...box, muted: Array<boolean>(box.outputs).fill(false) };
      if (box.kind !== "mixer") return box;
      const returns = returnsOf(box, wiring);
      const inputs = box.inputs.map((input) =>
        returns.includes(input.jack) ? { ...input, muted: false } : input,
      );
      return { ...box, inputs };
    }),
  };
}
