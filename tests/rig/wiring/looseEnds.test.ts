import { expect, test } from "vitest";
import { parseRig } from "../../../src/rig/file/parseRig.js";
import { routingsOf } from "../../../src/rig/routings/routingsOf.js";
import { footswitchesOf } from "../../../src/rig/wiring/footswitches.js";

const rigWith = (boxes: string, cables: string) => `name: Drawn
pedals:
  - { name: Wash, model: chorus, jacks: mono-to-stereo }
  - { name: Tank, model: spring, jacks: mono }
  - { name: Push, model: boost, jacks: mono }
wirings:
  mine:
    label: Mine
    boxes:
      wash: { box: pedal, pedal: Wash }
${boxes}
    cables:
${cables}
`;

const cautions = (boxes: string, cables: string) =>
  routingsOf(parseRig(rigWith(boxes, cables), "rig.yaml")).find(({ id }) => id === "mine")!.cautions;

/** Common practice, no source: what a bench asks of somebody else's drawing before it solders. */
test("pedals left out, spare outputs and empty channels are told", () => {
  const boxes = `      split: { box: splitter, outputs: 4, buffered: true }
      tank: { box: pedal, pedal: Tank, fullyWet: true }
      mix: { box: mixer, outputs: 2, inputs: [ { gainDb: 0, pan: -1 }, { gainDb: 0, pan: 1 }, { gainDb: -6, pan: 0 }, { gainDb: -6, pan: 0 } ] }`;
  const cables = `      - take:out > split:in
      - split:out 1 > wash:in
      - split:out 2 > tank:in
      - wash:out left > mix:in 1
      - wash:out right > mix:in 2
      - tank:out > mix:in 3
      - mix:out left > destination:in left
      - mix:out right > destination:in right`;
  expect(cautions(boxes, cables)).toEqual([
    "Push is left out of this wiring.",
    "split: out 3 and out 4 are spare.",
    "mix: nothing is plugged into in 4.",
  ]);
});

test("a stereo pedal used by its mono output, and one of two sides that goes nowhere", () => {
  const boxes = `      push: { box: pedal, pedal: Push }
      twin: { box: pedal, pedal: Wash }`;
  const cables = `      - take:out > wash:in
      - wash:out left > push:in
      - push:out > twin:in
      - twin:out right > destination:in left`;
  expect(cautions(boxes, cables)).toEqual([
    "Tank is left out of this wiring.",
    "Wash (wash) is used by its mono output alone: what it makes in stereo is not heard.",
    "Wash (twin): out left goes nowhere; that side is not heard.",
  ]);
});

test("a mute of a spare output or of an empty channel is no footswitch", () => {
  const boxes = `      split: { box: splitter, outputs: 3, buffered: true, mutes: true }
      mix: { box: mixer, outputs: 2, inputs: [ { gainDb: 0, pan: -1, mute: true }, { gainDb: 0, pan: 1, mute: true } ] }`;
  const cables = `      - take:out > split:in
      - split:out 1 > wash:in
      - wash:out left > mix:in 1
      - mix:out left > destination:in left
      - mix:out right > destination:in right`;
  const rig = parseRig(rigWith(boxes, cables), "rig.yaml");
  const { wiring } = routingsOf(rig).find(({ id }) => id === "mine")!;
  expect(footswitchesOf(wiring!).map(({ label }) => label)).toEqual(["split, out 1", "Wash", "mix, in 1"]);
});

test("nothing is said of the routings that the tool draws", () => {
  const rig = parseRig(
    rigWith(
      "",
      "      - take:out > wash:in\n      - wash:out left > destination:in left\n      - wash:out right > destination:in right",
    ),
    "rig.yaml",
  );
  for (const { id, cautions: own } of routingsOf(rig))
    if (id !== "mine") expect(own.join()).not.toMatch(/spare|nowhere|left out/);
});
