import { describe, expect, test } from "vitest";
import type { Instrument, Pedal, Rig } from "../../../src/rig/model/rig.js";
import { routingsOf } from "../../../src/rig/routings/routingsOf.js";
import type { Wiring } from "../../../src/rig/wiring/wiring.js";
import { loadingOf } from "../../../src/work/levels/loading.js";
import { instrument, pedal, rigOf, soldBox } from "../../rigs.js";
import { expectWithin } from "../../within.js";

const cables = { instrumentMetres: 5, patchMetres: 0.5, outputMetres: 8, picofaradsPerMetre: 100 };
const ohms = { inputOhms: 1e6, outputOhms: 1e3 };
const mono = (name: string, rest: Partial<Pedal> = {}) =>
  pedal(name, "boost", "mono", {}, { ...ohms, ...rest });
const rigOfTwo = (rest: Partial<Pedal> = {}): Rig =>
  rigOf([mono("One", rest), mono("Two", rest)], {
    instrument: instrument({ outputOhms: 10e3, henries: 0 }),
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

describe("a passive pickup", () => {
  // take > splitter > stereo pedal of 500 k, and beside it a unit of 47 k: 43 k together by a passive splitter.
  const rigWith = (rest: Partial<Instrument>) =>
    rigOf(
      [
        pedal("Swing", "tremolo", "mono-to-stereo", {}, { inputOhms: 500e3, whenOff: "true-bypass" }),
        pedal("Tank", "spring", "mono", {}, { inputOhms: 47e3 }),
      ],
      {
        instrument: instrument({ outputOhms: 9000, ...rest }),
        boxes: { ...rigOf([]).boxes, splitter: [soldBox({ inputOhms: 1e6, outputOhms: 220 })] },
        cables: { instrumentMetres: 6, patchMetres: 0, outputMetres: 0, picofaradsPerMetre: 100 },
      },
    );
  const splitOf = (rest: Partial<Instrument>) => {
    const rig = rigWith(rest);
    return loadingOf(wiringOf(rig, "parallel"), rig);
  };

  /** Closed forms of the second-order low-pass, worked out in tests/published/pickupCircuit.test.ts. */
  test("a passive splitter takes its resonance, and is never told as the brighter one", () => {
    const { splits, loads } = splitOf({ henries: 3, picofarads: 0 });
    const [{ withBuffer, without, mostApart }] = splits;
    expect(loads[0]).toMatchObject({ from: "Instrument", source: "pickup", resonance: withBuffer.resonance });
    expectWithin(withBuffer.resonance?.db ?? null, 14.15, 0.01, "dB");
    expectWithin(withBuffer.resonance?.hz ?? null, 3731, 1, "Hz");
    expectWithin(withBuffer.cornerHz, 5814, 1, "Hz");
    expect(without.resonance).toBeNull();
    expectWithin(without.cornerHz, 3562, 6, "Hz");
    // The two closed forms subtracted, Hz by Hz.
    expectWithin(mostApart?.hz ?? null, 3763, 1, "Hz");
    expectWithin(mostApart?.db ?? null, -19.098, 0.001, "dB");
  });
  test("its own capacitance adds to the cable's, and is named where it is not given", () => {
    const own = splitOf({ henries: 3, picofarads: 200 }).loads[0];
    // Lightly damped: the resonance goes as 1 / sqrt(C).
    expectWithin(own.resonance?.hz ?? null, 3731 * Math.sqrt(600 / 800), 15, "Hz");
    expect(splitOf({ henries: 3, picofarads: 200 }).missing).not.toContain(
      "Instrument: picofarads (taken as 0)",
    );
    expect(splitOf({ henries: 3 }).missing).toContain("Instrument: picofarads (taken as 0)");
  });
  test("without henries it may be one or not: losses are told, no corner and no resonance", () => {
    const { splits, loads, missing } = splitOf({});
    const unknown = { cornerHz: null, resonance: null, source: "unknown" };
    expect(loads[0]).toMatchObject(unknown);
    expect(splits[0]).toMatchObject({ withBuffer: unknown, without: unknown, mostApart: null });
    expectWithin(splits[0].withBuffer.lossDb, 20 * Math.log10(1e6 / 1.009e6), 1e-9, "dB");
    expect(missing).toContain("Instrument: henries (0 for no coil)");
  });
  test("into an input of which nothing is known no resonance is told", () => {
    const rig = rigOf([pedal("Swing", "tremolo", "mono-to-stereo")], {
      instrument: instrument({ outputOhms: 9000, henries: 3, picofarads: 100 }),
    });
    expect(loadingOf(wiringOf(rig), rig).loads[0]).toMatchObject({ resonance: null, cornerHz: null });
  });
  /** Thevenin: the jack of a 500 k track half way is 259 k and 250 k side by side, 127.2 k. */
  test("a volume control turned down is the source's resistance", () => {
    const half = splitOf({ henries: 3, picofarads: 100, volume: { ohms: 500e3, trackShare: 0.5 } });
    expectWithin(half.loads[0].sourceOhms, 127_210, 1, "ohms");
    expectWithin(half.loads[0].lossDb, 20 * Math.log10(1e6 / 1_127_210), 1e-4, "dB");
  });
});
