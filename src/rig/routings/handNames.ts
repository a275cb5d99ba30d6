import { quoted } from "../../text/words.js";
import type { Rig } from "../model/rig.js";
import type { HandFault } from "./handDrawn.js";
import { parsePlanId } from "./planId.js";
import { routingsOf } from "./routingsOf.js";

/** Hand-drawn wirings that could be mistaken for a plan by their id, or for another wiring by their label. */
export function handNameFaults(rig: Rig): readonly HandFault[] {
  const drawn = Object.entries(rig.wirings);
  if (drawn.length === 0) return [];
  const labels = new Map(
    routingsOf({ ...rig, wirings: {} }).map(({ id, label }) => [label.trim().toLowerCase(), id]),
  );
  return drawn.flatMap(([id, { label }]): readonly HandFault[] => {
    const key = label.trim().toLowerCase();
    const other = labels.get(key);
    labels.set(key, id);
    return [
      ...(typeof parsePlanId(rig, id) === "string"
        ? []
        : [
            {
              path: ["wirings", id],
              atKey: true,
              message: `${quoted(id)} is the id of a plan of this rig. Give the wiring another id.`,
            },
          ]),
      ...(other === undefined
        ? []
        : [
            {
              path: ["wirings", id, "label"],
              message: `label is ${quoted(label)}; ${quoted(other)} has that label (capitals do not count). Give each wiring a label of its own.`,
            },
          ]),
    ];
  });
}
