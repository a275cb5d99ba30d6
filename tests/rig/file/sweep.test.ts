import { expect, test } from "vitest";
import { parseRig } from "../../../src/rig/file/parseRig.js";
import { toYaml } from "../../../src/rig/file/toYaml.js";
import { knobsOf } from "../../../src/rig/knobs/knobs.js";
import { readAxis } from "../../../src/rig/knobs/vary.js";
import { pedal, rigOf, simpleRig } from "../../rigs.js";
import { expectWithin } from "../../within.js";
import { faultsOf } from "./faultsOf.js";

const rigText = (sweep: string) => `name: Test
pedals:
  - { name: Swing, model: tremolo, jacks: mono-to-stereo }
  - { name: Echo box, model: delay, jacks: mono }
secondUnit:
  Echo box: { delayMs: 440 }
sweep:
${sweep}`;

test("a sweep block is read, and written as it was", () => {
  const rig = parseRig(
    rigText(`  vary:
    - { mixer.returnDb: -20..0/5 }
    - { Swing.depth: 0..1/3, Echo box.mix: [0.1, 0.2, 0.4] }
  want: ["sideShare>=0.2"]
  least: [foldDownLossDb]
  sample: 7`),
    "rig.yaml",
  );
  expect(rig.sweep).toEqual({
    vary: [
      [{ path: "mixer.returnDb", values: [-20, -15, -10, -5, 0] }],
      [
        { path: "Swing.depth", values: [0, 0.5, 1] },
        { path: "Echo box.mix", values: [0.1, 0.2, 0.4] },
      ],
    ],
    want: ["sideShare>=0.2"],
    most: [],
    least: ["foldDownLossDb"],
    routings: null,
    sample: 7,
    seed: 1,
    tolerancePercent: null,
    draws: 20,
  });
  expect(parseRig(toYaml(rig), "again.yaml")).toEqual(rig);
});

test.each([
  [
    "  vary: [{ Swing.depht: 0..1/3 }]",
    /^rig\.yaml:8:12: "Swing\.depht" is nothing that can be set here; "Swing" has .* Did you mean depth\?$/,
  ],
  ["  vary: [{ Swign.depth: 0..1/3 }]", /^rig\.yaml:8:12: .* Did you mean Swing\?$/],
  [
    "  vary: [{ Swing.depth: 0..1.5/3 }]",
    /^rig\.yaml:8:25: "Swing\.depth" cannot be 1\.5; it goes from 0 to 1/,
  ],
  ["  vary: [{ Swing.wave: [sine, saw] }]", /^rig\.yaml:8:24: "Swing\.wave" cannot be "saw"; it is one of /],
  [
    "  vary: [{ Swing.depth: 0..1/3, Echo box.mix: 0..1/4 }]",
    /^rig\.yaml:8:10: knobs that step together need as many/,
  ],
  [
    "  vary: [{ Swing.depth: 0..1/3 }, { Swing.depth: 0..1/3 }]",
    /^rig\.yaml:8:37: "Swing\.depth" is varied twice\.$/,
  ],
  ["  vray: []", /^rig\.yaml:8:3: "vray" is not known here; .* Did you mean vary\?$/],
  ["  sample: 0", /^rig\.yaml:8:11: sample is 0; a sweep's sample is a whole number from 1/],
])("%s is told where it stands", (block, line) => {
  expect(faultsOf(rigText(block))).toEqual([expect.stringMatching(line)]);
});

test("ranges go by equal steps or equal ratios, as the setting's table or a word says", () => {
  const knobs = knobsOf(simpleRig());
  const values = (path: string, words: unknown) => {
    const axis = readAxis(knobs, path, words);
    return typeof axis === "string" ? axis : axis.values;
  };
  expect(values("Echo.delayMs", "100..400/3")).toEqual([100, 200, 400]);
  expect(values("Echo.delayMs", "100..400/3 lin")).toEqual([100, 250, 400]);
  expect(values("Swing.depth", "1..0/3")).toEqual([1, 0.5, 0]);
  expect(values("Swing.depth", "0.1, 0.9")).toEqual([0.1, 0.9]);
  expect(values("mixer.returnPan", -1)).toEqual([-1]);
  expect(values("Swing.depth", "0..1/3 log")).toMatch(/cannot go by ratios/);
  expect(values("Swing.depth", "0..1/1")).toMatch(/a range has 2 to 100000/);
  expect(values("Swing.depth", "0.2, 0.2")).toMatch(/twice/);
});

test("every knob can be turned, and turns nothing else", () => {
  const rig = rigOf([pedal("Swing", "tremolo", "mono-to-stereo"), pedal("Echo", "delay", "mono")], {
    wirings: {
      mine: {
        label: "Mine",
        boxes: {
          echo: { box: "pedal", pedal: "Echo", fullyWet: true, settings: {} },
          desk: { box: "mixer", inputs: [{ gainDb: 0, pan: 0 }], outputs: 2 },
        },
        cables: [],
      },
    },
  });
  const knobs = knobsOf(rig);
  expect(new Set(knobs.map(({ path }) => path)).size).toBe(knobs.length);
  for (const { path, setting, turn, value } of knobs) {
    if ("file" in setting) continue;
    const other =
      "min" in setting
        ? value === setting.min
          ? setting.max
          : setting.min
        : "choices" in setting
          ? setting.choices.find((choice) => choice !== value)!
          : !value;
    const turned = new Map(knobsOf(turn(rig, other)).map((knob) => [knob.path, knob.value]));
    expect(turned.get(path), path).toBe(other);
    // The other units and drawn boxes are set like the pedal unless they say otherwise.
    const changed = knobs.filter((knob) => turned.get(knob.path) !== knob.value).map((knob) => knob.path);
    const key = path.slice(path.lastIndexOf("."));
    expect(
      changed.every((name) => name.endsWith(key)),
      `${path}: ${changed}`,
    ).toBe(true);
  }
});

test("a second unit that is set otherwise goes along in the same ratio", () => {
  const rig = simpleRig({ secondUnit: { Echo: { delayMs: 220 } } });
  const knob = knobsOf(rig).find(({ path }) => path === "Echo.delayMs")!;
  const { secondUnit } = knob.turn(rig, 400);
  expectWithin(Number(secondUnit.Echo.delayMs), 440, 1e-9, "ms");
});
