import { expect, test } from "vitest";
import type { Rig } from "../../../src/rig/model/rig.js";
import { routingsOf } from "../../../src/rig/routings/routingsOf.js";
import { type LaidBox, layoutWiring, type Point, type WiringLayout } from "../../../src/rig/wiring/layout.js";
import { inputJacks, outputJacks, type Wiring } from "../../../src/rig/wiring/wiring.js";
import { pedal, rigOf, simpleRig } from "../../rigs.js";

/*
 * Laws that a wiring diagram must hold to be read at all: boxes apart, cables level or upright from jack to jack and
 * not through boxes, signal from left to right. Common practice of schematic drawing, no source.
 */
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

test.each(wirings)("a drawing can be read: $name", async ({ wiring }) => {
  const layout = await layoutWiring(wiring);
  expect(layout.boxes.map(({ id }) => id)).toEqual(wiring.boxes.map(({ id }) => id));
  expect(overlaps(layout)).toEqual([]);
  expect(outside(layout)).toEqual([]);
  expect(looseCables(layout)).toEqual([]);
  expect(slantedCables(layout)).toEqual([]);
  expect(cablesThroughBoxes(layout)).toEqual([]);
});

test.each(wirings)("every jack stands on its edge, inputs left, outputs right: $name", async ({ wiring }) => {
  const layout = await layoutWiring(wiring);
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
test("signal flows from left to right", async () => {
  for (const { wiring } of ofShortRig) {
    const layout = await layoutWiring(wiring);
    for (const { from, to } of layout.cables) {
      expect(boxOf(layout, from.box).x + boxOf(layout, from.box).width).toBeLessThan(boxOf(layout, to.box).x);
    }
  }
});

test("a long wiring is folded to fit a sheet", async () => {
  const wide = wirings.find(({ name }) => name === "7 pedals, parallel-after");
  const { width, height } = await layoutWiring(wide?.wiring ?? { boxes: [], cables: [] });
  expect(width).toBeLessThanOrEqual(1400);
  expect(height).toBeLessThan(width);
});

test("the same wiring gives the same drawing", async () => {
  const { wiring } = wirings[3];
  expect(await layoutWiring(structuredClone(wiring))).toEqual(await layoutWiring(wiring));
});

/** Names of rigs are a person's own: 300 letters without a space, markup, wide letters. */
test("long names are broken, and end in an ellipsis at last", async () => {
  const named = (label: string): Wiring => ({
    boxes: [{ kind: "take", id: "take", label, outputs: 1, channels: 1 }],
    cables: [],
  });
  const [long] = (await layoutWiring(named("x".repeat(300)))).boxes;
  expect(long.lines).toHaveLength(3);
  expect(long.lines[2].endsWith("\u2026")).toBe(true);
  const [spoken] = (await layoutWiring(named("Two words and then some more"))).boxes;
  expect(spoken.lines.join(" ")).toBe("Two words and then some more");
  const [latin] = (await layoutWiring(named("abcdefgh"))).boxes;
  const [wide] = (await layoutWiring(named("電気ピアノの余韻"))).boxes;
  expect(wide.width).toBeGreaterThan(1.5 * latin.width);
});

const boxOf = ({ boxes }: WiringLayout, id: string): LaidBox => {
  const box = boxes.find((one) => one.id === id);
  if (!box) throw new Error(`no box "${id}"`);
  return box;
};

function overlaps({ boxes }: WiringLayout): string[] {
  return boxes.flatMap((a, n) =>
    boxes
      .slice(n + 1)
      .filter(
        (b) => a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height,
      )
      .map((b) => `${a.id} over ${b.id}`),
  );
}

function outside({ boxes, cables, width, height }: WiringLayout): unknown[] {
  const corners = boxes.flatMap((box) => [
    { x: box.x, y: box.y },
    { x: box.x + box.width, y: box.y + box.height },
  ]);
  return [...corners, ...cables.flatMap(({ points }) => points)].filter(
    ({ x, y }) => x < 0 || y < 0 || x > width || y > height,
  );
}

function looseCables(layout: WiringLayout): string[] {
  const jackAt = (box: string, jack: string, side: string) => {
    const found = boxOf(layout, box).jacks.find((one) => one.name === jack && one.side === side);
    return found && { x: found.x, y: found.y };
  };
  const apart = (a: Point | undefined, b: Point | undefined) =>
    !a || !b || Math.hypot(a.x - b.x, a.y - b.y) > 0.01;
  return layout.cables
    .filter(
      ({ from, to, points }) =>
        apart(points[0], jackAt(from.box, from.jack, "out")) ||
        apart(points.at(-1), jackAt(to.box, to.jack, "in")),
    )
    .map(({ from, to }) => `${from.box}:${from.jack} to ${to.box}:${to.jack}`);
}

const pieces = (points: readonly Point[]): [Point, Point][] =>
  points.slice(1).map((to, n) => [points[n], to]);

const slantedCables = ({ cables }: WiringLayout): unknown[] =>
  cables.flatMap(({ points }) =>
    pieces(points).filter(([a, b]) => Math.abs(a.x - b.x) > 0.01 && Math.abs(a.y - b.y) > 0.01),
  );

function cablesThroughBoxes({ boxes, cables }: WiringLayout): string[] {
  const inside = 0.5;
  return cables.flatMap(({ from, points }) =>
    pieces(points).flatMap(([a, b]) =>
      boxes
        .filter(
          ({ x, y, width, height }) =>
            Math.max(a.x, b.x) > x + inside &&
            Math.min(a.x, b.x) < x + width - inside &&
            Math.max(a.y, b.y) > y + inside &&
            Math.min(a.y, b.y) < y + height - inside,
        )
        .map(({ id }) => `cable from ${from.box} through ${id}`),
    ),
  );
}
