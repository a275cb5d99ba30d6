import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  directOutOfPedal,
  type Gains,
  gainsOf,
  intoPedal,
  isWet,
  outOfPedal,
  through,
  wholeGainsOf,
} from "../../../src/rig/wiring/boxGains.js";
import type { MixerBox, PedalBox } from "../../../src/rig/wiring/wiring.js";
import { pedal, pedalBox } from "../../rigs.js";
import { expectWithin } from "../../within.js";

/** Signals that are plain numbers: a matrix then is the one of the textbook. */
const numbers = (matrices: readonly Gains[], inputs: readonly number[]): readonly number[] =>
  through(matrices, inputs, (signals, gains) => signals.reduce((sum, x, n) => sum + x * gains[n], 0));

const mixer = (outputs: 1 | 2, inputs: readonly (readonly [gainDb: number, pan: number])[]): MixerBox => ({
  kind: "mixer",
  id: "m",
  label: "m",
  outputs,
  inputs: inputs.map(([gainDb, pan], n) => ({ jack: `in ${n + 1}`, gainDb, pan })),
});

const box = (rest: Partial<PedalBox>, changed: Parameters<typeof pedal>[4] = {}, model = "delay"): PedalBox =>
  pedalBox("p", pedal("p", model, "stereo", model === "delay" ? { mix: 0.25 } : {}, changed), rest);

test("a splitter hands its input on, a summing box gives the mean", () => {
  const splitter = { kind: "splitter", id: "s", label: "s", outputs: 3, buffered: true } as const;
  expect(numbers(gainsOf(splitter), [0.7])).toEqual([0.7, 0.7, 0.7]);
  const summing = { kind: "summing-box", id: "s", label: "s", inputs: 4 } as const;
  expect(numbers(gainsOf(summing), [1, 2, 3, 6])).toEqual([3]);
});

/** W3C Web Audio API, StereoPannerNode, mono input: left cos, right sin of (pan + 1) times 45 degrees. */
test("a mixer's input goes to the buses by gain and pan", () => {
  const [[left], [right]] = wholeGainsOf(mixer(2, [[-6, 0.5]]));
  expectWithin(left, 10 ** (-6 / 20) * Math.cos(0.75 * (Math.PI / 2)), 1e-15);
  expectWithin(right, 10 ** (-6 / 20) * Math.sin(0.75 * (Math.PI / 2)), 1e-15);
  expect(
    wholeGainsOf(
      mixer(2, [
        [0, -1],
        [0, 1],
      ]),
    ),
  ).toEqual([
    [1, 0],
    [0, 1],
  ]);
  expect(
    wholeGainsOf(
      mixer(1, [
        [0, -1],
        [0, 1],
      ]),
    ),
  ).toEqual([[0.5, 0.5]]);
});

/** Matrices are associative. */
test("a mixer's matrices one after the other are its one matrix", () => {
  const inputs = fc.array(
    fc.tuple(fc.double({ min: -60, max: 12, noNaN: true }), fc.double({ min: -1, max: 1, noNaN: true })),
    { minLength: 1, maxLength: 5 },
  );
  fc.assert(
    fc.property(inputs, fc.constantFrom(1 as const, 2 as const), (list, outputs) => {
      const signals = list.map((_, n) => Math.sin(n + 1));
      const drawn = mixer(outputs, list);
      const whole = numbers([wholeGainsOf(drawn)], signals);
      for (const [n, x] of numbers(gainsOf(drawn), signals).entries()) expectWithin(x, whole[n], 1e-12);
    }),
    { seed: 7 },
  );
});

describe("a pedal", () => {
  /** Sides in, effect of each output (100, 200), sides out. */
  const played = (drawn: PedalBox, inputs: readonly number[]) => {
    const heard = numbers([intoPedal(drawn)], inputs);
    const effect = isWet(drawn) ? [100, 200].slice(0, drawn.outputs) : [];
    return numbers([outOfPedal(drawn)], [...heard, ...effect]);
  };
  test("with one output hears the mean of two sides", () => {
    expect(played(box({ inputs: 2 }), [2, 6])).toEqual([0.75 * 4 + 0.25 * 100]);
  });
  test("with one input gives it to both outputs, with the effect of each", () => {
    expect(played(box({ outputs: 2 }), [4])).toEqual([28, 53]);
  });
  test("keeps two sides apart", () => {
    expect(played(box({ inputs: 2, outputs: 2 }), [4, 8])).toEqual([28, 56]);
  });
  test("fully wet leaks what it cannot kill; its output is trimmed and turned over", () => {
    const leaking = box({ fullyWet: true }, { canGoFullyWet: false, dryLeakDb: -20 });
    expectWithin(played(leaking, [10])[0], 101, 1e-12);
    const inverting = box({ fullyWet: true }, { invertsPolarity: true, levelDb: -20 });
    expectWithin(played(inverting, [10])[0], -10, 1e-12);
  });
  /** Closed form: dry 1 whatever the mix; the effect at mix. Kill-dry takes the dry sound out, nothing else does. */
  test("with its dry sound at unity adds the effect to it", () => {
    const unity = { dryPath: "unity" } as const;
    expect(played(box({}, unity), [4])).toEqual([4 + 0.25 * 100]);
    expect(played(box({}, { ...unity, settings: { ...box({}).pedal.settings, mix: 1 } }), [4])).toEqual([
      104,
    ]);
    expect(played(box({ fullyWet: true }, unity), [4])).toEqual([100]);
    const leaking = { ...unity, canGoFullyWet: false, dryLeakDb: -20 };
    expect(played(box({ fullyWet: true }, leaking), [4])).toEqual([104]);
    expect(played(box({ wetMuted: true }, unity), [4])).toEqual([4]);
  });
  test("muted keeps its dry sound alone", () => {
    expect(played(box({ wetMuted: true }), [4])).toEqual([3]);
  });
  test.each([
    ["true-bypass", 4],
    ["buffered", 4],
    ["muted", 0],
  ] as const)("off, %s", (whenOff, expected) => {
    const off = box({ inputs: 2, outputs: 2, on: false }, { whenOff, levelDb: 6, invertsPolarity: true });
    expect(played(off, [4, 4])).toEqual([expected, expected]);
  });
  test("lets the sound itself through beside its effect, or as the whole of it", () => {
    expect(directOutOfPedal(box({ outputs: 2 }))).toEqual([[0.75], [0.75]]);
    expect(directOutOfPedal(box({}, {}, "tone"))).toEqual([[1]]);
    expectWithin(directOutOfPedal(box({}, {}, "boost"))[0][0], 10 ** (6 / 20), 1e-12);
  });
});

/** Law: what stands on one side alone is heard as loud as what stands on the other. */
test("a pedal of one way hears both sides alike", () => {
  expect(intoPedal(box({ inputs: 2, outputs: 1 }))).toEqual([[0.5, 0.5]]);
});

/** An instrument's own sides, or their mean where one output is used of two. */
test.each([
  [1, 1, [[1]]],
  [
    2,
    2,
    [
      [1, 0],
      [0, 1],
    ],
  ],
  [2, 1, [[0.5, 0.5]]],
] as const)("an instrument of %i sides by %i outputs", (channels, outputs, expected) => {
  const take = { kind: "take", id: "take", label: "take", channels, outputs } as const;
  expect(gainsOf(take)).toEqual([expected]);
});

test("a pedal that is heard on one side alone is wet, one that nothing is left of is not", () => {
  const wetDry = { mix: 0.5, secondOutput: "wet-dry" };
  const swing = { ...box({ outputs: 2 }), pedal: pedal("p", "vibrato", "mono-to-stereo", wetDry) };
  expect(isWet(swing)).toBe(true);
  expect(isWet(box({ on: false }))).toBe(false);
});
