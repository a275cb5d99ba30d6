import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { pickupKinds } from "../../src/rig/model/pickupKinds.js";
import type { Pickup } from "../../src/rig/model/rig.js";
import { type JackLoad, jackLevel, trebleOf } from "../../src/rig/wiring/pickupCircuit.js";
import { cornerHz } from "../../src/work/levels/loading.js";
import { expectWithin } from "../within.js";

const coil = (rest: Partial<Pickup> = {}): Pickup => ({
  ohms: 9000,
  henries: 3,
  picofarads: 0,
  volume: null,
  tone: null,
  ...rest,
});
const hundredHz = Array.from({ length: 100 }, (_, n) => 20 * 1000 ** (n / 99));

/**
 * Closed form of a coil R, L into C and a load r side by side, from the transfer function
 * r / (R + r + s (L + R r C) + s^2 L r C): with x = (2 pi f)^2,
 *     |H|^-2 = (a - x L C)^2 + x (L / r + R C)^2 = a^2 + b x + c x^2,  a = 1 + R / r, b = (L / r + R C)^2 - 2 a L C, c = (L C)^2.
 * It has its peak at x = -b / 2c, where b < 0, and half the power of 0 Hz where c x^2 + b x = a^2.
 */
function closedForm({ ohms, henries, picofarads }: Pickup, load: { ohms: number; picofarads: number }) {
  const farads = (picofarads + load.picofarads) * 1e-12;
  const a = 1 + ohms / load.ohms;
  const b = (henries / load.ohms + ohms * farads) ** 2 - 2 * a * henries * farads;
  const c = (henries * farads) ** 2;
  const levelDb = (hz: number) => {
    const x = (2 * Math.PI * hz) ** 2;
    return -10 * Math.log10(a * a + b * x + c * x * x);
  };
  return {
    levelDb,
    resonance:
      b < 0
        ? {
            hz: Math.sqrt(-b / (2 * c)) / (2 * Math.PI),
            db: -10 * Math.log10(1 - (b * b) / (4 * c * a * a)),
          }
        : null,
    cornerHz: Math.sqrt((Math.sqrt(b * b + 4 * c * a * a) - b) / (2 * c)) / (2 * Math.PI),
  };
}

describe("R, L, C and a load against the closed form", () => {
  const loads = [10e3, 43e3, 100e3, 500e3, 1e6, 10e6].flatMap((ohms) =>
    [100, 600, 2000].map((picofarads) => ({ ohms, picofarads })),
  );
  test.each(loads)("$ohms ohms and $picofarads pF", (load) => {
    for (const pickup of [coil(), coil({ ohms: 5500, henries: 2.2, picofarads: 110 })]) {
      const wanted = closedForm(pickup, load);
      const level = jackLevel(pickup, load);
      for (const hz of hundredHz) expectWithin(level(hz), wanted.levelDb(hz), 0.01, "dB");
      const treble = trebleOf(level);
      expectWithin(treble.cornerHz, wanted.cornerHz, wanted.cornerHz * 1e-6, "Hz");
      // Near no peak at all the top is flat: its height is exact long before its place.
      if (wanted.resonance === null || wanted.resonance.db < 1e-3)
        expect(treble.resonance?.db ?? 0).toBeLessThan(1e-3);
      else {
        expectWithin(treble.resonance?.hz ?? null, wanted.resonance.hz, wanted.resonance.hz * 1e-3, "Hz");
        expectWithin(treble.resonance?.db ?? null, wanted.resonance.db, 1e-6, "dB");
      }
    }
  });
});

/**
 * 9 kilohms, 3 H and 600 pF. Worked out by hand from the closed form above: 500 kilohms leave +11.6 dB over low
 * frequencies (+11.4 dB over what the coil gives unloaded) at 3.72 kHz; 43 kilohms leave -4.9 dB there against unloaded,
 * of which 1.65 dB is lost at all frequencies, no peak, and -3 dB at 3.56 kHz.
 */
describe("a pickup of 9 kilohms and 3 H with 600 pF of cable", () => {
  test("into 500 kilohms it rings", () => {
    const level = jackLevel(coil(), { ohms: 500e3, picofarads: 600 });
    const { resonance, cornerHz } = trebleOf(level);
    expectWithin(resonance?.hz ?? null, 3717, 1, "Hz");
    expectWithin(resonance?.db ?? null, 11.57, 0.01, "dB");
    expectWithin(level(3717), 11.41, 0.01, "dB");
    expectWithin(cornerHz, 5807, 1, "Hz");
  });
  test("into 43 kilohms it does not", () => {
    const level = jackLevel(coil(), { ohms: 43e3, picofarads: 600 });
    expect(trebleOf(level).resonance).toBeNull();
    expectWithin(level(0), -1.65, 0.005, "dB");
    expectWithin(level(3700), -4.93, 0.01, "dB");
    expectWithin(trebleOf(level).cornerHz, 3562, 1, "Hz");
  });
});

/** Law: without a coil it is the resistance of source and load with a capacitance, 1 / (2 pi R C) (Thevenin's theorem). */
test.each([0, 1e-9])("as the coil goes, %d H, the corner of a resistance is left", (henries) => {
  for (const [ohms, loadOhms, picofarads] of [
    [10e3, 1e6, 600],
    [600, 10e3, 300],
    [9000, 43e3, 660],
  ]) {
    const { resonance, cornerHz: found } = trebleOf(
      jackLevel(coil({ ohms, henries }), { ohms: loadOhms, picofarads }),
    );
    const wanted = cornerHz((ohms * loadOhms) / (ohms + loadOhms), picofarads);
    expect(resonance).toBeNull();
    expectWithin(found, wanted, wanted * 1e-4, "Hz");
  }
});

test("nothing to ground and no coil: no corner; a coil into a resistance alone: R / L", () => {
  expect(trebleOf(jackLevel(coil({ henries: 0 }), { ohms: 1e6, picofarads: 0 }))).toEqual({
    resonance: null,
    cornerHz: null,
  });
  // First order: (R + r) / (2 pi L).
  const { cornerHz: found } = trebleOf(jackLevel(coil(), { ohms: 100e3, picofarads: 0 }));
  expectWithin(found, 109e3 / (2 * Math.PI * 3), 0.01, "Hz");
});

/**
 * Independent solution: Kirchhoff's current law at the four nodes (behind R, behind L, between tone track and capacitor, at
 * the jack) as a complex linear system, by elimination with pivots; the product solves a ladder from the jack back.
 */
function byNodes({ ohms, henries, picofarads, volume, tone }: Pickup, load: JackLoad, hz: number): number {
  const w = 2 * Math.PI * hz;
  const rows = Array.from({ length: 4 }, () => Array.from({ length: 5 }, (): C => [0, 0]));
  const ground = -1;
  const join = (from: number, to: number, [re, im]: C) => {
    for (const [a, b] of [
      [from, to],
      [to, from],
    ]) {
      if (a === ground) continue;
      rows[a][a] = [rows[a][a][0] + re, rows[a][a][1] + im];
      if (b !== ground) rows[a][b] = [rows[a][b][0] - re, rows[a][b][1] - im];
    }
  };
  const [afterR, afterL, toneNode, jack] = [0, 1, 2, 3];
  // The strings' 1 V through R as a current into the first node (Norton).
  join(afterR, ground, [1 / ohms, 0]);
  rows[afterR][4] = [1 / ohms, 0];
  join(afterR, afterL, [0, -1 / (w * henries)]);
  join(afterL, ground, [0, w * picofarads * 1e-12]);
  join(afterL, toneNode, [1 / (tone ? tone.ohms * tone.trackShare : 1), 0]);
  if (tone) join(toneNode, ground, [0, w * tone.nanofarads * 1e-9]);
  // A track of no length is a wire: a milliohm.
  const upperOhms = Math.max(1e-3, volume ? volume.ohms * (1 - volume.trackShare) : 0);
  join(afterL, jack, [1 / upperOhms, 0]);
  if (volume) join(jack, ground, [1 / (volume.ohms * volume.trackShare), 0]);
  join(jack, ground, [load.ohms === null ? 0 : 1 / load.ohms, w * load.picofarads * 1e-12]);
  for (let n = 0; n < 4; n++) {
    const pivot = rows.reduce(
      (best, row, at) => (at > n && size(row[n]) > size(rows[best][n]) ? at : best),
      n,
    );
    [rows[n], rows[pivot]] = [rows[pivot], rows[n]];
    for (let at = 0; at < 4; at++) {
      if (at === n) continue;
      const factor = over(rows[at][n], rows[n][n]);
      rows[at] = rows[at].map((value, column) => minus(value, times(factor, rows[n][column])));
    }
  }
  return 20 * Math.log10(size(over(rows[jack][4], rows[jack][jack])));
}
type C = readonly [number, number];
const size = ([re, im]: C) => Math.hypot(re, im);
const minus = (a: C, b: C): C => [a[0] - b[0], a[1] - b[1]];
const times = (a: C, b: C): C => [a[0] * b[0] - a[1] * b[1], a[0] * b[1] + a[1] * b[0]];
const over = (a: C, b: C): C => {
  const [re, im] = times(a, [b[0], -b[1]]);
  const norm = b[0] * b[0] + b[1] * b[1];
  return [re / norm, im / norm];
};

test("with volume and tone controls, turned anywhere, against the node equations", () => {
  const within = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  const track = { ohms: within(50e3, 1e6), trackShare: within(0.01, 1) };
  const pickup = fc.record({
    ohms: within(1e3, 20e3),
    henries: within(0.5, 10),
    picofarads: within(1, 300),
    volume: fc.option(fc.record(track)),
    tone: fc.option(fc.record({ ...track, nanofarads: within(1, 100) })),
  });
  const load = fc.record({ ohms: fc.option(within(10e3, 1e7)), picofarads: within(50, 2000) });
  fc.assert(
    fc.property(pickup, load, (source, at) => {
      const level = jackLevel(source, at);
      for (const hz of hundredHz) expectWithin(level(hz), byNodes(source, at, hz), 1e-3, "dB");
    }),
    { numRuns: 100, seed: 13 },
  );
});

/**
 * What H. E. W. Lemme ("The Secrets of Electric Guitar Pickups") states of most magnetic pickups, from memory: 1 to 10 H,
 * 80 to 200 pF, and behind 500 to 1000 pF of cable a resonance between 2 and 5 kHz; two coils ring lower than one.
 */
test("the usual coil of each kind is what is published of most", () => {
  const ringsAt = ({ outputOhms, henries, picofarads }: (typeof pickupKinds)[keyof typeof pickupKinds]) =>
    [500, 1000].map((cable) => {
      const level = jackLevel(coil({ ohms: outputOhms, henries, picofarads }), {
        ohms: 1e6,
        picofarads: cable,
      });
      return trebleOf(level).resonance?.hz ?? 0;
    });
  for (const usual of Object.values(pickupKinds)) {
    expect(usual.henries).toBeGreaterThanOrEqual(1);
    expect(usual.henries).toBeLessThanOrEqual(10);
    expect(usual.picofarads).toBeGreaterThanOrEqual(80);
    expect(usual.picofarads).toBeLessThanOrEqual(200);
    for (const hz of ringsAt(usual)) {
      expect(hz).toBeGreaterThan(2000);
      expect(hz).toBeLessThan(5000);
    }
  }
  const [one, two] = [ringsAt(pickupKinds["single-coil"]), ringsAt(pickupKinds.humbucking)];
  for (const [n, hz] of two.entries()) expect(hz).toBeLessThan(one[n]);
});
