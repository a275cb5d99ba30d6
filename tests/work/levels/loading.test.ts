import { describe, expect, test } from "vitest";
import type { Pedal, Rig } from "../../../src/rig/model/rig.js";
import { routingsOf } from "../../../src/rig/routings/routingsOf.js";
import type { Wiring } from "../../../src/rig/wiring/wiring.js";
import { loadingOf } from "../../../src/work/levels/loading.js";
import { pedal, rigOf } from "../../rigs.js";
import { expectWithin } from "../../within.js";

const cables = { instrumentMetres: 5, patchMetres: 0.5, outputMetres: 8, picofaradsPerMetre: 100 };
const ohms = { inputOhms: 1e6, outputOhms: 1e3 };
const mono = (name: string, rest: Partial<Pedal> = {}) =>
  pedal(name, "boost", "mono", {}, { ...ohms, ...rest });
const rigOfTwo = (rest: Partial<Pedal> = {}): Rig =>
  rigOf([mono("One", rest), mono("Two", rest)], {
    instrument: { outputOhms: 10e3, outputs: 1 },
    destination: { inputOhms: 10e3, maxInputDbu: null },
    cables,
  });
const wiringOf = (rig: Rig, id = "as-given"): Wiring =>
  routingsOf(rig).find((each) => each.id === id)!.wiring!;
const off = (wiring: Wiring): Wiring => ({
  ...wiring,
  boxes: wiring.boxes.map((box) => (box.kind === "pedal" ? { ...box, on: false } : box)),
});

test("each output with its own cable: long ones at the ends, short ones between", () => {
  const { loads, missing } = loadingOf(wiringOf(rigOfTwo()), rigOfTwo());
  expect(loads.map(({ from, cableMetres }) => `${from} ${cableMetres}`)).toEqual([
    "Instrument 5",
    "One 0.5",
    "Two 8",
  ]);
  expect(loads[2].cablePicofarads).toBe(800);
  expect(missing).toEqual([]);
});

describe("pedals that are off", () => {
  // take -5 m-> One -0.5 m-> Two -8 m-> desk: by true bypass the instrument drives all of it.
  test("true bypass hangs every cable on the instrument", () => {
    const rig = rigOfTwo({ whenOff: "true-bypass" });
    const { loads } = loadingOf(off(wiringOf(rig)), rig);
    expect(loads).toHaveLength(1);
    expect(loads[0]).toMatchObject({
      from: "Instrument",
      through: ["One", "Two"],
      loadOhms: 10e3,
      cableMetres: 13.5,
    });
    expectWithin(loads[0].lossDb, -20 * Math.log10(2), 1e-9, "dB");
    expectWithin(loads[0].cornerHz, 1 / (2 * Math.PI * 5e3 * 1350e-12), 1e-6, "Hz");
  });
  test("a buffered pedal drives on by itself", () => {
    const rig = rigOfTwo({ whenOff: "buffered" });
    expect(loadingOf(off(wiringOf(rig)), rig).loads).toHaveLength(3);
  });
});

test("what is not given leaves figures empty and is named once", () => {
  const rig = rigOf([pedal("One", "boost", "mono"), mono("Two")], { cables });
  const { loads, missing } = loadingOf(wiringOf(rig), rig);
  expect(loads[0]).toMatchObject({ sourceOhms: null, lossDb: null, cornerHz: null });
  expect(loads[1]).toMatchObject({ sourceOhms: null, loadOhms: 1e6, lossDb: null });
  expect(loads[2]).toMatchObject({ sourceOhms: 1e3, loadOhms: null, lossDb: null });
  expectWithin(loads[2].cornerHz, 1 / (2 * Math.PI * 1e3 * 800e-12), 1e-6, "Hz");
  expect(missing).toEqual([
    "Instrument: outputOhms",
    "One: inputOhms",
    "One: outputOhms",
    "Stereo desk: inputOhms",
  ]);
});

test("a stereo pedal off by true bypass keeps its sides apart", () => {
  const rig = rigOf(
    [pedal("Wide", "chorus", "mono-to-stereo", {}, ohms), pedal("Both", "chorus", "stereo", {}, ohms)],
    { cables, destination: { inputOhms: 10e3, maxInputDbu: null } },
  );
  const wiring = wiringOf(rig);
  const boxes = wiring.boxes.map((box) => (box.id === "Both" ? { ...box, on: false } : box));
  const { loads } = loadingOf({ ...wiring, boxes }, rig);
  expect(loads.map(({ fromJack, to }) => [fromJack, ...to.map(({ jack }) => jack)].join(" > "))).toEqual([
    "out > in",
    "out left > in left",
    "out right > in right",
  ]);
});
