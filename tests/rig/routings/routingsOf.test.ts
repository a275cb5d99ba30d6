import { describe, expect, test } from "vitest";
import type { Rig } from "../../../src/rig/model/rig.js";
import { routingIds } from "../../../src/rig/routings/routing.js";
import { routingsOf } from "../../../src/rig/routings/routingsOf.js";
import { checkWiring } from "../../../src/rig/wiring/check.js";
import type { Wiring } from "../../../src/rig/wiring/wiring.js";
import { pedal, rigOf, simpleRig } from "../../rigs.js";

const wiringOf = (rig: Rig, id: string): Wiring => {
  const wiring = routingsOf(rig).find((routing) => routing.id === id)?.wiring;
  if (!wiring) throw new Error(`${id} has no wiring`);
  return wiring;
};

/** "Swing:out left > Echo:in": every cable as a line. */
const lines = (wiring: Wiring): string[] =>
  wiring.cables.map(({ from, to }) => `${from.box}:${from.jack} > ${to.box}:${to.jack}`);

describe("the eight routings of a split and a mono unit", () => {
  test("series-mono: one cable from box to box", () => {
    expect(lines(wiringOf(simpleRig(), "series-mono"))).toEqual([
      "take:out > Swing:in",
      "Swing:out > Echo:in",
      "Echo:out > destination:in",
    ]);
  });

  test("unit-first: the unit moves ahead of the split", () => {
    expect(lines(wiringOf(simpleRig(), "unit-first"))).toEqual([
      "take:out > Echo:in",
      "Echo:out > Swing:in",
      "Swing:out left > destination:in left",
      "Swing:out right > destination:in right",
    ]);
  });

  test("dual-mono: a unit for each side", () => {
    expect(lines(wiringOf(simpleRig(), "dual-mono"))).toEqual([
      "take:out > Swing:in",
      "Swing:out left > Echo (left):in",
      "Swing:out right > Echo (right):in",
      "Echo (left):out > destination:in left",
      "Echo (right):out > destination:in right",
    ]);
  });

  test("parallel: split, the unit beside, both into a stereo mixer", () => {
    expect(lines(wiringOf(simpleRig(), "parallel"))).toEqual([
      "take:out > Splitter:in",
      "Splitter:out 1 > Swing:in",
      "Splitter:out 2 > Echo:in",
      "Swing:out left > Mixer:in 1 left",
      "Swing:out right > Mixer:in 1 right",
      "Echo:out > Mixer:in 2 (mono)",
      "Mixer:out left > destination:in left",
      "Mixer:out right > destination:in right",
    ]);
  });

  test("parallel-after: each side split, their sum into the unit", () => {
    expect(lines(wiringOf(simpleRig(), "parallel-after"))).toEqual([
      "take:out > Swing:in",
      "Swing:out left > Left splitter:in",
      "Swing:out right > Right splitter:in",
      "Left splitter:out 2 > Summing box:in 1",
      "Right splitter:out 2 > Summing box:in 2",
      "Summing box:out > Echo:in",
      "Left splitter:out 1 > Mixer:in 1 left",
      "Right splitter:out 1 > Mixer:in 1 right",
      "Echo:out > Mixer:in 2 (mono)",
      "Mixer:out left > destination:in left",
      "Mixer:out right > destination:in right",
    ]);
  });

  test("one-side: the other side goes straight through", () => {
    expect(lines(wiringOf(simpleRig(), "one-side"))).toEqual([
      "take:out > Swing:in",
      "Swing:out left > Echo:in",
      "Echo:out > destination:in left",
      "Swing:out right > destination:in right",
    ]);
  });

  test("summed: a summing box, the unit, a splitter", () => {
    expect(lines(wiringOf(simpleRig(), "summed"))).toEqual([
      "take:out > Swing:in",
      "Swing:out left > Summing box:in 1",
      "Swing:out right > Summing box:in 2",
      "Summing box:out > Echo:in",
      "Echo:out > Splitter:in",
      "Splitter:out 1 > destination:in left",
      "Splitter:out 2 > destination:in right",
    ]);
  });

  test("stereo-unit: both sides through one box, with the settings that the rig gives it", () => {
    const rig = simpleRig({ stereoUnit: { "*": { mix: 0.25 } } });
    const wiring = wiringOf(rig, "stereo-unit");
    expect(lines(wiring)).toContain("Swing:out right > Stereo Echo:in right");
    const unit = wiring.boxes.find(({ id }) => id === "Stereo Echo");
    expect(unit?.kind === "pedal" && unit.pedal.settings.mix).toBe(0.25);
  });
});

test("labels speak of the unit's kind", () => {
  const labels = Object.fromEntries(routingsOf(simpleRig()).map(({ id, label }) => [id, label]));
  expect(labels["unit-first"]).toBe("Delay first");
  expect(labels["dual-mono"]).toBe("Two delays, one a side");
  const two = rigOf([
    pedal("A", "chorus", "mono-to-stereo"),
    pedal("B", "delay", "mono"),
    pedal("C", "tremolo", "mono"),
  ]);
  expect(routingsOf(two).map(({ label }) => label)).toContain("Two delays and two tremolos, one a side");
});

test("several units: one branch each in parallel; the order is kept in parallel-after, with a mixer a run", () => {
  const rig = rigOf([
    pedal("A", "chorus", "mono-to-stereo"),
    pedal("U1", "delay", "mono"),
    pedal("B", "chorus", "stereo"),
    pedal("U2", "tremolo", "mono"),
  ]);
  const beside = wiringOf(rig, "parallel");
  expect(beside.boxes.find(({ id }) => id === "Splitter")).toMatchObject({ outputs: 3 });
  expect(lines(beside)).toContain("U2:out > Mixer:in 3 (mono)");
  const after = wiringOf(rig, "parallel-after");
  expect(lines(after)).toContain("Mixer 1:out left > B:in left");
  expect(lines(after)).toContain("Mixer 2:out left > destination:in left");
});

test("a pedal with one input after the split gets the sum, and a caution", () => {
  const rig = rigOf([
    pedal("A", "chorus", "mono-to-stereo"),
    pedal("B", "delay", "mono-to-stereo"),
    pedal("U", "tremolo", "mono"),
  ]);
  const routing = routingsOf(rig).find(({ id }) => id === "dual-mono");
  expect(lines(routing!.wiring!)).toContain("A:out right > B sum:in 2");
  expect(routing?.cautions.join()).toMatch(/B has one input/);
});

test("a rig without a mono unit has one wiring, and is told so", () => {
  const rig = rigOf([pedal("A", "chorus", "mono-to-stereo")]);
  const routings = routingsOf(rig);
  expect(routings.filter(({ wiring }) => wiring).map(({ id }) => id)).toEqual(["as-given"]);
  expect(routings.filter(({ wiring }) => !wiring).map(({ id }) => id)).toEqual([...routingIds]);
  expect(routings[1].reason).toMatch(/only one input and one output/);
  expect(routingsOf(rigOf([pedal("A", "boost", "mono")]))[0].says).toMatch(/no split/);
});

describe("destinations", () => {
  test("a mono desk gets a sum, from the mixer where there is one", () => {
    const rig = simpleRig({ playsInto: "mono-desk" });
    expect(lines(wiringOf(rig, "dual-mono"))).toContain("Output sum:out > destination:in");
    expect(lines(wiringOf(rig, "parallel"))).toContain("Mixer:out > destination:in");
  });
  test("two amps share a mono signal by a buffered splitter", () => {
    const wiring = wiringOf(simpleRig({ playsInto: "two-amps" }), "series-mono");
    expect(lines(wiring).slice(-3)).toEqual([
      "Echo:out > Amp splitter:in",
      "Amp splitter:out 1 > destination:in left",
      "Amp splitter:out 2 > destination:in right",
    ]);
  });
});

test("every wiring of many rigs holds together", () => {
  const jacks = ["mono", "mono-to-stereo", "stereo"] as const;
  for (let code = 0; code < 3 ** 5; code++) {
    const shape = Array.from({ length: 5 }, (_, n) => jacks[Math.floor(code / 3 ** n) % 3]);
    const pedals = shape.map((jack, n) => pedal(`P${n}`, "chorus", jack));
    for (const playsInto of ["stereo-desk", "two-amps", "mono-desk"] as const) {
      for (const { id, wiring } of routingsOf(rigOf(pedals, { playsInto }))) {
        if (wiring) expect(checkWiring(wiring), `${shape.join(" ")} ${playsInto} ${id}`).toEqual([]);
      }
    }
  }
});
