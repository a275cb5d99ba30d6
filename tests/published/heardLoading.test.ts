import { beforeAll, describe, expect, test } from "vitest";
import type { Pickup, Rig } from "../../src/rig/model/rig.js";
import { routingsOf } from "../../src/rig/routings/routingsOf.js";
import { dryPaths } from "../../src/rig/wiring/dryPaths.js";
import { loadingNote } from "../../src/rig/wiring/loadingNote.js";
import { initialiseFft } from "../../src/sound/dsp/fft.js";
import { gainDbAt } from "../dtft.js";
import { instrument, pedal, rigOf, soldBox } from "../rigs.js";
import { impulse, noise } from "../signals.js";
import { expectWithin } from "../within.js";
import { renderWirings } from "../work/render/renders.js";

beforeAll(() => initialiseFft());

const wiringOf = (rig: Rig, id = "as-given") => routingsOf(rig).find((each) => each.id === id)!.wiring!;
/** One plain box of no gain on an instrument. */
const plainRig = (pickup: Partial<Pickup>, inputOhms: number | null, rest: Partial<Rig> = {}): Rig => {
  const { ohms, ...coil } = pickup;
  return rigOf([pedal("Push", "boost", "mono", { gainDb: 0 }, { inputOhms })], {
    instrument: instrument({ outputOhms: ohms ?? null, ...coil }),
    ...rest,
  });
};
const rendered = (rig: Rig, take: Float32Array, rateHz: number, id?: string) =>
  renderWirings([wiringOf(rig, id)], take, rateHz)[0];

type Complex = readonly [re: number, im: number];
const plus = (...terms: readonly Complex[]): Complex => [
  terms.reduce((sum, [re]) => sum + re, 0),
  terms.reduce((sum, [, im]) => sum + im, 0),
];
const times = ([a, b]: Complex, [c, d]: Complex): Complex => [a * c - b * d, a * d + b * c];
const over = (top: Complex, [c, d]: Complex): Complex =>
  times(top, [c / (c * c + d * d), -d / (c * c + d * d)]);
const one: Complex = [1, 0];

/**
 * Kirchhoff's current law at the two nodes of a pickup with both controls, solved by Cramer's rule; apart from the
 * solver's ladder. Coil to node 1, where its own capacitance and the tone control hang; the upper part of the volume
 * track from there to node 2, the jack; with the volume full up both are one node.
 */
function jackDb(pickup: Pickup, load: { ohms: number; picofarads: number }, hz: number): number {
  const w = 2 * Math.PI * hz;
  const { volume, tone } = pickup;
  const coil = over(one, [pickup.ohms, w * pickup.henries]);
  const own: Complex = [0, w * pickup.picofarads * 1e-12];
  const toneBranch: Complex = tone
    ? over(one, [tone.trackShare * tone.ohms, -1 / (w * tone.nanofarads * 1e-9)])
    : [0, 0];
  const lower = volume ? 1 / (volume.trackShare * volume.ohms) : 0;
  const jack: Complex = [lower + 1 / load.ohms, w * load.picofarads * 1e-12];
  const at1 = plus(coil, own, toneBranch);
  let level: Complex;
  if (volume && volume.trackShare < 1) {
    const upper: Complex = [1 / ((1 - volume.trackShare) * volume.ohms), 0];
    const determinant = plus(times(plus(at1, upper), plus(jack, upper)), times([-1, 0], times(upper, upper)));
    level = over(times(coil, upper), determinant);
  } else level = over(coil, plus(at1, jack));
  return 20 * Math.log10(Math.hypot(...level));
}

const bare = { ohms: 9000, henries: 3, picofarads: 0, volume: null, tone: null } as const;
const controls = {
  ohms: 6200,
  henries: 2.4,
  picofarads: 110,
  volume: { ohms: 250_000, trackShare: 0.3 },
  tone: { ohms: 250_000, trackShare: 0.05, nanofarads: 22 },
} as const;

/** The render of a click, by its Fourier sum, against the circuit up to 0.4 of the rate, within 0.05 dB. */
describe("what is heard is the circuit as loaded against the circuit as recorded", () => {
  const cases = [bare, { ...bare, ohms: 4500, henries: 7.5 }, controls, { ...bare, henries: 0 }].flatMap(
    (pickup) =>
      [4700, 47_000, 470_000, 1e6, 1e7].flatMap((inputOhms) =>
        [44_100, 48_000, 96_000].map((rateHz) => ({ pickup, inputOhms, rateHz })),
      ),
  );
  test.each(cases)(
    "$pickup.henries H into $inputOhms ohms at $rateHz Hz",
    ({ pickup, inputOhms, rateHz }) => {
      for (const into of [
        { ohms: 1e6, picofarads: 250 },
        { ohms: 68_000, picofarads: 1200 },
      ]) {
        const [response] = rendered(
          plainRig(pickup, inputOhms, { takeInto: into }),
          impulse(rateHz >> 2),
          rateHz,
        );
        for (let hz = 20; hz <= 0.4 * rateHz; hz *= 1.07) {
          const wanted = jackDb(pickup, { ohms: inputOhms, picofarads: 600 }, hz) - jackDb(pickup, into, hz);
          expectWithin(gainDbAt(response, hz, rateHz), wanted, 0.05, "dB");
        }
      }
    },
  );
});

/** Figures of the closed form that `pickupCircuit.test.ts` works out: the peak of 11 dB that 43 kilohms take. */
test("a passive splitter ahead of a low input takes the peak, a buffered one keeps it", () => {
  const at = (buffered: boolean) => {
    const rig = plainRig(bare, 43_000, {
      boxes: {
        splitter: [soldBox({ inputOhms: 1e6, outputOhms: 100 })],
        "summing-box": [soldBox()],
        mixer: [soldBox()],
      },
      wirings: {
        y: {
          label: "Y",
          boxes: {
            y: { box: "splitter", outputs: 2, buffered },
            push: { box: "pedal", pedal: "Push", fullyWet: false, settings: {} },
          },
          cables: [
            { from: "take:out", to: "y:in" },
            { from: "y:out 1", to: "push:in" },
            { from: "push:out", to: "destination:in left" },
            { from: "y:out 2", to: "destination:in right" },
          ],
        },
      },
      destination: { inputOhms: 1e6, maxInputDbu: null },
      cables: { instrumentMetres: 5.4, patchMetres: 0.3, outputMetres: 0, picofaradsPerMetre: 100 },
    });
    return gainDbAt(rendered(rig, impulse(8192), 48_000, "y")[0], 3700, 48_000);
  };
  expectWithin(at(true), 0, 0.3, "dB");
  expect(at(false)).toBeLessThan(-14);
});

/** Closed form: the divider, 20 log10(47 / 57) = -1.676 dB. */
test("what an input takes from the box ahead of it comes off the level, in the sound and in the ways of the dry signal", () => {
  const pedals = [
    pedal("Push", "boost", "mono", { gainDb: 0 }, { inputOhms: 1e6, outputOhms: 10_000 }),
    pedal("Shove", "boost", "mono", { gainDb: 0 }, { inputOhms: 47_000, outputOhms: null }),
  ];
  const rig = rigOf(pedals, { instrument: instrument({ outputOhms: 9000, henries: 3 }) });
  const [left] = rendered(rig, impulse(4096), 48_000);
  expectWithin(gainDbAt(left, 100, 48_000), 20 * Math.log10(47 / 57), 0.01, "dB");
  const [[way]] = dryPaths(wiringOf(rig));
  expect(way.gain).toBeCloseTo(47 / 57, 9);
});

describe("where nothing is known of the instrument, or it is left out", () => {
  const take = noise({ seed: 5, frames: 4096 });
  const plain = rendered(plainRig({}, null), take, 48_000);
  test.each([
    ["no henries", plainRig({ ohms: 9000 }, 4700)],
    ["no ohms", plainRig({ henries: 3 }, 4700)],
    ["left out", plainRig(bare, 4700, { leavesLoadingOut: true })],
    ["as it was recorded", plainRig(bare, 1e6)],
  ])("%s: the sound is the same to the bit", (_what, rig) => {
    expect(rendered(rig, take, 48_000)).toEqual(plain);
  });
  test("otherwise it is not", () => {
    expect(rendered(plainRig(bare, 4700), take, 48_000)).not.toEqual(plain);
  });
});

describe("it is told", () => {
  const noteOf = (rig: Rig) => loadingNote(rig, [wiringOf(rig)]);
  test("whether it is heard, against what, and what is assumed", () => {
    expect(noteOf(plainRig({ ohms: 9000 }, 4700))).toMatch(
      /^Loading is not in the sound: the rig does not give/,
    );
    expect(noteOf(plainRig(bare, 4700, { leavesLoadingOut: true }))).toMatch(
      /left out of the sound, as asked/,
    );
    const assumed = noteOf(plainRig(bare, 4700));
    expect(assumed).toContain("against a take recorded into 1 megohm and 600 pF (assumed;");
    const stated = noteOf(plainRig(bare, 4700, { takeInto: { ohms: 47_000, picofarads: 300 } }));
    expect(stated).toContain("against a take recorded into 47 kilohms and 300 pF, and");
    expect(stated).not.toContain("assumed");
  });
  test("inputs of which the rig tells nothing", () => {
    expect(noteOf(plainRig(bare, null))).toContain(
      "Taken as 1 megohm, for the rig gives no inputOhms: Push.",
    );
    expect(noteOf(plainRig(bare, 4700))).not.toContain("Taken as");
  });
});
