import { describe, expect, test } from "vitest";
import type { JackFacts, Rig } from "../../src/rig/model/rig.js";
import { routingsOf } from "../../src/rig/routings/routingsOf.js";
import { inParallel } from "../../src/rig/wiring/dividers.js";
import { dbfsToDbu, dbuToDbfs, dbuToVolts } from "../../src/work/levels/dbu.js";
import { cornerHz, dividerLossDb, loadingOf } from "../../src/work/levels/loading.js";
import { instrument, pedal, rigOf, soldBox } from "../rigs.js";
import { expectWithin } from "../within.js";

const rigWith = (jacks: Partial<JackFacts>, rest: Partial<Rig> = {}): Rig =>
  rigOf([pedal("Push", "boost", "mono", {}, jacks)], rest);
const loadingAs = (rig: Rig, id = "as-given") =>
  loadingOf(routingsOf(rig).find((routing) => routing.id === id)!.wiring!, rig);

/** Closed form: a voltage divider, 20 log10(ZL / (ZS + ZL)); figures worked out apart to three decimals. */
describe("loss of source and load", () => {
  test.each([
    [1e3, 1e6, -0.009],
    [10e3, 1e6, -0.086],
    [100, 10e3, -0.086],
    [1e3, 10e3, -0.828],
    [10e3, 100e3, -0.828],
    [150, 1.5e3, -0.828],
    [10e3, 10e3, -6.021],
  ])("%d ohms into %d ohms", (sourceOhms, loadOhms, lossDb) => {
    expectWithin(dividerLossDb(sourceOhms, loadOhms), lossDb, 0.0005, "dB");
    const rig = rigWith({ inputOhms: loadOhms }, { instrument: instrument({ outputOhms: sourceOhms }) });
    const [load] = loadingAs(rig).loads;
    expect(load).toMatchObject({ from: "Instrument", to: [{ box: "Push" }], sourceOhms, loadOhms });
    expectWithin(load.lossDb, lossDb, 0.0005, "dB");
  });
  test("inputs side by side: two alike are half, and lose what half would", () => {
    expect(inParallel([1e6, 1e6])).toBeCloseTo(500e3, 6);
    expect(inParallel([3e3, 6e3])).toBeCloseTo(2e3, 9);
  });
});

/**
 * Closed form: first-order low-pass, 1 / (2 pi R C): 1 kilohm with 500 pF turns at 318 kHz, 10 kilohms at 31.8 kHz, and
 * with 1 nF at 15.9 kHz; 100 kilohms with 500 pF at 3.18 kHz.
 */
describe("corner of source and cable", () => {
  test.each([
    [1e3, 500, 318.3e3],
    [10e3, 500, 31.83e3],
    [10e3, 1000, 15.92e3],
    [100e3, 500, 3.183e3],
  ])("%d ohms and %d pF", (outputOhms, picofarads, hz) => {
    expectWithin(cornerHz(outputOhms, picofarads), hz, hz * 1e-3, "Hz");
    const cables = {
      instrumentMetres: 5,
      patchMetres: 0,
      outputMetres: 0,
      picofaradsPerMetre: picofarads / 5,
    };
    const [load] = loadingAs(
      rigWith({}, { instrument: instrument({ outputOhms, henries: 0 }), cables }),
    ).loads;
    expectWithin(load.cornerHz, hz, hz * 1e-3, "Hz");
    expect(load.cablePicofarads).toBe(picofarads);
  });
  /** Thevenin's theorem: what the cable sees is source and load side by side. */
  test("a load beside the source moves the corner up", () => {
    const cables = { instrumentMetres: 5, patchMetres: 0, outputMetres: 0, picofaradsPerMetre: 100 };
    const rig = rigWith(
      { inputOhms: 10e3 },
      { instrument: instrument({ outputOhms: 10e3, henries: 0 }), cables },
    );
    expectWithin(loadingAs(rig).loads[0].cornerHz, 2 * 31_830.99, 0.1, "Hz");
  });
});

/** Common practice, no source: a passive split loads what stands ahead with all its inputs; a buffer with one. */
test("a passive split against a buffered one", () => {
  const rig = rigOf(
    [
      pedal("Split", "tremolo", "mono-to-stereo", { depth: 0 }, { inputOhms: 20e3 }),
      pedal("Beside", "boost", "mono", {}, { inputOhms: 20e3 }),
    ],
    {
      instrument: instrument({ outputOhms: 10e3, henries: 0 }),
      boxes: {
        ...rigOf([]).boxes,
        splitter: [soldBox({ inputOhms: 1e6, outputOhms: 100 })],
      },
    },
  );
  const { splits, loads } = loadingAs(rig, "parallel");
  expect(splits).toHaveLength(1);
  expect(splits[0]).toMatchObject({ box: "Splitter", buffered: true });
  expectWithin(splits[0].withBuffer.lossDb, 20 * Math.log10(1e6 / 1.01e6), 1e-9, "dB");
  // 20 k and 20 k side by side are 10 k: as much as the source, so half is lost.
  expectWithin(splits[0].without.lossDb, -20 * Math.log10(2), 1e-9, "dB");
  // Behind the buffer each output drives its own input.
  const behind = loads.filter(({ from }) => from === "Splitter");
  expect(behind.map(({ to }) => to.length)).toEqual([1, 1]);
  expectWithin(behind[0].lossDb, 20 * Math.log10(20e3 / 20.1e3), 1e-9, "dB");
});

/** 0 dBu is sqrt(0.6) V = 0.774597 V; +4 dBu 1.22765 V; -10 dBV, 0.316228 V, is -7.7815 dBu (closed forms). */
test("dBu, volts and full scale", () => {
  expectWithin(dbuToVolts(0), 0.774597, 1e-6, "V");
  expectWithin(dbuToVolts(4), 1.22765, 1e-5, "V");
  expectWithin(dbuToVolts(4 - 11.782), 0.316228, 2e-5, "V");
  // EBU R 68: the alignment tone, -18 dBFS; here it stands for 0 dBu, so that full scale is +18 dBu.
  expect(dbfsToDbu(0, { dbfs: -18, dbu: 0 })).toBe(18);
  expect(dbuToDbfs(18, { dbfs: -18, dbu: 0 })).toBe(0);
});
