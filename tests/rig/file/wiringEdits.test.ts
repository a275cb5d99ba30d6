import { expect, test } from "vitest";
import { editRig, type RigEdit } from "../../../src/rig/file/editRig.js";
import { checkRig, parseRig } from "../../../src/rig/file/parseRig.js";
import {
  boxIds,
  cablesIn,
  newWiring,
  wiringIds,
  withBox,
  withCable,
  withoutBox,
  withoutCable,
  withoutWiring,
} from "../../../src/rig/file/wiringEdits.js";
import { drawHand } from "../../../src/rig/routings/drawHand.js";
import { handCopy } from "../../../src/rig/routings/handCopy.js";
import { wiringOf } from "../../../src/rig/routings/routingsOf.js";
import { inputJacks, outputJacks } from "../../../src/rig/wiring/wiring.js";

const rigText = `name: Board
pedals:
  - { name: Wash, model: chorus, jacks: mono-to-stereo } # the blue one
  - { name: Tank, model: spring, jacks: mono }
`;
const data = (text: string): unknown => checkRig(text, "rig.yaml").data;
const faults = (text: string): readonly string[] =>
  checkRig(text, "rig.yaml").faults.map(({ path, message }) => `${path?.join(".")}: ${message}`);
const edited = (text: string, edits: readonly RigEdit[]) => editRig(text, edits);

const copied = () => {
  const rig = parseRig(rigText, "rig.yaml");
  const copy = handCopy(wiringOf(rig, "parallel")!, rig);
  return edited(rigText, newWiring("own", { label: "Own", ...copy }));
};

test("a copy comes into the file a cable a line, comments stay, and it goes again", () => {
  const text = copied();
  expect(text).toContain("# the blue one");
  expect(text).toContain("\n      - take:out > splitter:in\n      - splitter:out 1 > wash:in\n");
  expect(faults(text)).toEqual([]);
  expect(wiringIds(data(text))).toEqual(["own"]);
  expect(edited(text, withoutWiring("own"))).toBe(edited(rigText, []));
});

test("a wiring is drawn from an empty board, and each step tells what it wants", () => {
  let text = edited(rigText, newWiring("own", { label: "Own", boxes: {}, cables: [] }));
  const step = (edits: readonly RigEdit[]) => {
    text = edited(text, edits);
    return faults(text);
  };
  const nowhere =
    'wirings.own: no sound reaches "destination", what the rig plays into; cable a way to it from "take", the instrument.';
  expect(faults(text)).toEqual([nowhere]);
  expect(
    step(withBox("own", "wash", { box: "pedal", pedal: "Wash", fullyWet: false, settings: {} })),
  ).toEqual([
    nowhere,
    'wirings.own.boxes.wash: what leaves "wash" goes nowhere; cable it on or take it out.',
  ]);
  step(withCable(data(text), "own", "take:out", "wash:in"));
  expect(step(withCable(data(text), "own", "wash:out left", "destination:in left"))).toEqual([]);
  expect(step(withCable(data(text), "own", "wash:out right", "destination:in left"))).toEqual([
    'wirings.own.cables.2: "destination:in" already takes "wash:out left"; two outputs are never tied together. Use a summing box or a mixer.',
  ]);
  expect(step(withoutCable("own", 2))).toEqual([]);
  expect(cablesIn(data(text), "own")).toEqual([
    { from: "take:out", to: "wash:in" },
    { from: "wash:out left", to: "destination:in left" },
  ]);
  expect(step(withoutBox(data(text), "own", "wash"))).toEqual([nowhere]);
  expect(boxIds(data(text), "own")).toEqual([]);
  expect(cablesIn(data(text), "own")).toEqual([]);
});

test("a box goes with its cables, and no others", () => {
  const text = edited(copied(), withoutBox(data(copied()), "own", "tank"));
  expect(boxIds(data(text), "own")).toEqual(["splitter", "wash", "mixer"]);
  expect(
    cablesIn(data(text), "own")
      .flatMap(({ from, to }) => [from, to])
      .join(),
  ).not.toContain("tank");
  expect(cablesIn(data(text), "own")).toHaveLength(6);
});

test("a draft shows faulty drawings with every jack; in what cannot be read there is none", () => {
  const wired = edited(
    rigText,
    newWiring("own", {
      label: "Own",
      boxes: { wash: { box: "pedal", pedal: "Wash", fullyWet: false, settings: {} } },
      cables: [{ from: "wash:out", to: "destination:in" }],
    }),
  );
  const { rig, draft } = checkRig(wired, "rig.yaml");
  expect(rig).toBeNull();
  const board = drawHand(draft!.wirings.own, draft!, "all");
  expect(board.boxes.map((box) => [box.id, inputJacks(box).length, outputJacks(box).length])).toEqual([
    ["take", 0, 1],
    ["wash", 1, 2],
    ["destination", 2, 0],
  ]);
  expect(board.cables).toEqual([
    { from: { box: "wash", jack: "out left" }, to: { box: "destination", jack: "in left" } },
  ]);
  expect(checkRig(wired.replace("chorus", "chorsu"), "rig.yaml").draft).toBeNull();
});
