import { mostJacks } from "../model/bounds.js";
import type { HandBox, HandWiring } from "../model/rig.js";
import { cableEnds } from "./cableText.js";
import { listAt, mapAt, valueAt } from "./dataAt.js";

/**
 * A drawing as far as it can be made out, for who draws on while there are faults in it: boxes of a known kind with their
 * jacks, and every cable. Levels and settings are left out.
 */
export function sketchWiring(data: unknown, id: string): HandWiring {
  const drawn = mapAt(data, ["wirings", id]);
  const boxes = Object.entries(mapAt(drawn, ["boxes"])).flatMap(([name, box]): [string, HandBox][] => {
    const sketched = sketchBox(box);
    return sketched ? [[name, sketched]] : [];
  });
  return {
    label: String(drawn.label ?? id),
    boxes: Object.fromEntries(boxes),
    cables: listAt(drawn, ["cables"]).map((text) => cableEnds(String(text))),
  };
}

function sketchBox(box: unknown): HandBox | null {
  const at = (key: string) => valueAt(box, [key]);
  switch (at("box")) {
    case "pedal":
      return {
        box: "pedal",
        pedal: String(at("pedal")),
        stereo: at("stereo") === true,
        fullyWet: at("fullyWet") === true,
        settings: {},
      };
    case "splitter":
      return { box: "splitter", outputs: jacks(at("outputs")), buffered: at("buffered") !== false };
    case "summing-box":
      return { box: "summing-box", inputs: jacks(at("inputs")) };
    case "mixer":
      return {
        box: "mixer",
        inputs: listAt(box, ["inputs"])
          .slice(0, mostJacks)
          .map(() => ({ gainDb: 0, pan: 0 })),
        outputs: at("outputs") === 1 ? 1 : 2,
      };
    default:
      return null;
  }
}

/** What is no number of jacks counts as two. */
const jacks = (value: unknown): number =>
  typeof value === "number" && Number.isInteger(value) && value >= 2 && value <= mostJacks ? value : 2;
