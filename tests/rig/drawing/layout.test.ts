import fc from "fast-check";
import { expect, test } from "vitest";
import { layoutWiring } from "../../../src/rig/drawing/layout.js";
import type { Rig } from "../../../src/rig/model/rig.js";
import { routingsOf } from "../../../src/rig/routings/routingsOf.js";
import { inputJacks, outputJacks, type Wiring } from "../../../src/rig/wiring/wiring.js";
import { pedal, rigOf, simpleRig } from "../../rigs.js";
import { randomRig } from "../routings/randomRigs.js";
import { sixRigs } from "../routings/sixRigs.js";
import { anyWiring } from "./anyWiring.js";
import { bends, boxOf, brokenLaws, crossings, noneBroken } from "./laws.js";

const longRig = rigOf(
  [
    pedal("Crest", "boost", "mono"),
    pedal("Undertow", "vibrato", "mono-to-stereo"),
    pedal("Ledger", "delay", "stereo"),
    pedal("Boiler tank", "delay", "mono"),
    pedal("Tide", "chorus", "stereo"),
    pedal("Slow mile", "tremolo", "mono"),
    pedal("Cabinet", "speaker", "stereo"),
  ],
  { playsInto: "two-amps" },
);

const drawingsOf = (rig: Rig) =>
  routingsOf(rig).flatMap(({ id, wiring }) =>
    wiring ? [{ name: `${rig.pedals.length} pedals, ${id}`, wiring }] : [],
  );
const ofShortRig = drawingsOf(simpleRig());
const wirings = [...ofShortRig, ...drawingsOf(longRig)];

test.each(wirings)("a drawing can be read: $name", ({ wiring }) => {
  const layout = layoutWiring(wiring);
  expect(layout.boxes.map(({ id }) => id)).toEqual(wiring.boxes.map(({ id }) => id));
  expect(brokenLaws(layout)).toEqual(noneBroken);
});

/** Fifty rigs at random and those of different kinds. */
const rigs = [...Array.from({ length: 50 }, (_, n) => randomRig(n + 1)), ...Object.values(sixRigs)];
const drawings = rigs.flatMap(drawingsOf).map(({ wiring }) => ({ wiring, layout: layoutWiring(wiring) }));

test("every routing of many rigs can be read, and is the same when drawn again", () => {
  // How many hangs on the list of models.
  expect(drawings.length).toBeGreaterThan(5 * rigs.length);
  for (const { wiring, layout } of drawings) {
    expect(brokenLaws(layout)).toEqual(noneBroken);
    expect(layoutWiring(structuredClone(wiring))).toEqual(layout);
  }
});

/** Independent implementation: elkjs 0.12.1, layered, drew the same wirings with 47 crossings and 1876 bends. */
test("no more crossings and bends than the drawings of another program have", () => {
  const total = (count: typeof bends) => drawings.reduce((sum, { layout }) => sum + count(layout), 0);
  expect(total(crossings)).toBeLessThanOrEqual(47);
  expect(total(bends)).toBeLessThanOrEqual(1876);
});

/** What a hand may draw before anything is checked. */
test("any wiring at all is drawn, with loops, loose boxes and free jacks", () => {
  fc.assert(
    fc.property(anyWiring(), (wiring) => {
      expect(brokenLaws(layoutWiring(wiring))).toEqual(noneBroken);
    }),
    { seed: 1, numRuns: 400 },
  );
});

test("a cable to a box or jack that is not there has no points, and the others are drawn", () => {
  const { wiring } = ofShortRig[2];
  const loose = [
    { from: { box: "nowhere", jack: "out" }, to: { box: "take", jack: "in" } },
    { from: { box: "take", jack: "out 9" }, to: wiring.cables[0].to },
  ];
  const layout = layoutWiring({ ...wiring, cables: [...loose, ...wiring.cables] });
  expect(layout.cables.map(({ points }) => points)).toEqual([
    [],
    [],
    ...layoutWiring(wiring).cables.map(({ points }) => points),
  ]);
  expect(layoutWiring({ boxes: [], cables: loose })).toMatchObject({ boxes: [], width: 24 });
});

test.each(wirings)("every jack stands on its edge, inputs left, outputs right: $name", ({ wiring }) => {
  const layout = layoutWiring(wiring);
  layout.boxes.forEach((box, n) => {
    const named = (side: string) => box.jacks.filter((jack) => jack.side === side).map(({ name }) => name);
    expect(named("in")).toEqual(inputJacks(wiring.boxes[n]));
    expect(named("out")).toEqual(outputJacks(wiring.boxes[n]));
    for (const jack of box.jacks) {
      expect(jack.x).toBe(jack.side === "in" ? box.x : box.x + box.width);
      expect(jack.y).toBeGreaterThan(box.y);
      expect(jack.y).toBeLessThan(box.y + box.height);
    }
  });
});

/** Of a drawing in one row; a folded one begins again at the left. */
test("signal flows from left to right", () => {
  for (const { wiring } of ofShortRig) {
    const layout = layoutWiring(wiring);
    for (const { from, to } of layout.cables) {
      expect(boxOf(layout, from.box).x + boxOf(layout, from.box).width).toBeLessThan(boxOf(layout, to.box).x);
    }
  }
});

test("a long wiring is folded to fit a sheet", () => {
  const wide = wirings.find(({ name }) => name === "7 pedals, parallel-after");
  const { width, height } = layoutWiring(wide?.wiring ?? { boxes: [], cables: [] });
  expect(width).toBeLessThanOrEqual(1400);
  expect(height).toBeLessThan(width);
});

/** Names of rigs are a person's own: 300 letters without a space, markup, wide letters. */
test("long names are broken, and end in an ellipsis at last", () => {
  const named = (label: string): Wiring => ({
    boxes: [{ kind: "take", id: "take", label, outputs: 1, channels: 1 }],
    cables: [],
  });
  const [long] = layoutWiring(named("x".repeat(300))).boxes;
  expect(long.lines).toHaveLength(3);
  expect(long.lines[2].endsWith("\u2026")).toBe(true);
  const [spoken] = layoutWiring(named("Two words and then some more")).boxes;
  expect(spoken.lines.join(" ")).toBe("Two words and then some more");
  const [latin] = layoutWiring(named("abcdefgh")).boxes;
  const [wide] = layoutWiring(named("電気ピアノの余韻")).boxes;
  expect(wide.width).toBeGreaterThan(1.5 * latin.width);
});
