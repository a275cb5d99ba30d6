import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { editRig } from "../../../src/rig/file/editRig.js";
import { checkRig, parseRig } from "../../../src/rig/file/parseRig.js";
import { renamedPedal } from "../../../src/rig/file/pedalEdits.js";
import { toYaml } from "../../../src/rig/file/toYaml.js";
import type { Rig } from "../../../src/rig/model/rig.js";
import { newBoxId } from "../../../src/rig/routings/drawnByHand.js";
import { handCopy } from "../../../src/rig/routings/handCopy.js";
import { mixedPlans } from "../../../src/rig/routings/mixedPlans.js";
import { planRouting, routingsOf, wiringOf } from "../../../src/rig/routings/routingsOf.js";
import type { Wiring } from "../../../src/rig/wiring/wiring.js";
import { initialiseFft } from "../../../src/sound/dsp/fft.js";
import { MixCompiler } from "../../../src/work/render/mixCompiler.js";
import { pedal, rigOf } from "../../rigs.js";
import { noise } from "../../signals.js";
import { renderWirings } from "../../work/render/renders.js";
import { faultsOf } from "../file/faultsOf.js";
import { randomRig } from "./randomRigs.js";

await initialiseFft();

/** The rig with a copy by hand of each of these wirings, written to a file and read again. */
function withCopies(rig: Rig, wirings: readonly Wiring[]): Rig {
  const copies = wirings.map((wiring, n) => [`copy-${n}`, { label: `Copy ${n}`, ...handCopy(wiring, rig) }]);
  return parseRig(toYaml({ ...rig, wirings: Object.fromEntries(copies) }), "rig.yaml");
}

const demo = (name: string): Rig =>
  parseRig(
    readFileSync(new URL(`../../../fixtures/rigs/${name}.yaml`, import.meta.url), "utf8").replace(
      /^wirings:[\s\S]*?\n(?=\S|$)/m,
      "",
    ),
    name,
  );

/** A law: cables and boxes make the sound, whoever drew them. */
test.each(["ferry-road", "mill-loft"])(
  "%s: copies by hand render the very samples of the routings that they copy",
  (name) => {
    const rig = demo(name);
    const routings = routingsOf(rig).filter(({ wiring }) => wiring !== null);
    const originals = routings.map(({ wiring }) => wiring!);
    const read = withCopies(rig, originals);
    const copies = originals.map((_, n) => wiringOf(read, `copy-${n}`)!);
    const take = noise({ seed: 5, frames: 6000, rms: 0.2 });
    const renders = renderWirings([...originals, ...copies], take, 16_000, { tailSeconds: 0.2 });
    expect(routings.map(({ id }) => id)).toContain("parallel");
    routings.forEach(({ id }, n) => {
      const [left, right] = renders[n];
      const [copiedLeft, copiedRight] = renders[n + originals.length];
      expect(
        left.some((sample) => sample !== 0),
        id,
      ).toBe(true);
      expect(Buffer.compare(bytes(copiedLeft), bytes(left)), `${id}, left`).toBe(0);
      expect(Buffer.compare(bytes(copiedRight), bytes(right)), `${id}, right`).toBe(0);
    });
  },
);

const bytes = (samples: Float32Array) => Buffer.from(samples.buffer);

/** The same law without sound: wirings that name the same signals with the same gains sound the same. */
test("any wiring of any rig is copied by hand, units, second and stereo units and all", () => {
  let copied = 0;
  for (let seed = 1; seed <= 40; seed++) {
    const rig = randomRig(seed, 5);
    const plans = mixedPlans(rig, 3).plans.map((plan) => planRouting(rig, plan));
    const originals = [...routingsOf(rig), ...plans].flatMap(({ wiring }) => wiring ?? []);
    const read = withCopies(rig, originals);
    expect(parseRig(toYaml(read), "rig.yaml"), `seed ${seed}`).toEqual(read);
    originals.forEach((wiring, n) => {
      const copy = wiringOf(read, `copy-${n}`)!;
      const compiler = new MixCompiler({ rateHz: 48_000 });
      expect(compiler.destinationOf(copy), `seed ${seed}, ${n}`).toEqual(compiler.destinationOf(wiring));
      expect(unitsOf(copy), `seed ${seed}, ${n}`).toEqual(unitsOf(wiring));
      copied++;
    });
  }
  expect(copied).toBeGreaterThan(150);
});

const unitsOf = ({ boxes }: Wiring) =>
  boxes.flatMap((box) => (box.kind === "pedal" ? [[box.pedal.name, box.isUnit, box.fullyWet]] : []));

test("another for a unit's place, and a stereo one of its kind, are pedals of a drawing too", () => {
  const rig = parseRig(
    drawn(
      "barn: { box: pedal, pedal: Barn }",
      "big: { box: pedal, pedal: Tank, stereo: true, settings: { mix: 0.7 } }",
    ),
    "rig.yaml",
  );
  const boxes = wiringOf(rig, "mine")!.boxes.flatMap((box) => (box.kind === "pedal" ? [box] : []));
  expect(
    boxes.map(({ label, pedal: own, inputs, isUnit }) => [label, own.model, own.jacks, inputs, isUnit]),
  ).toEqual([
    ["Wash", "chorus", "mono-to-stereo", 1, false],
    ["Barn", "hall", "stereo", 2, true],
    ["Stereo Tank", "spring", "stereo", 2, true],
  ]);
  expect(boxes[2].pedal.settings.mix).toBe(0.7);
  expect(parseRig(toYaml(rig), "rig.yaml")).toEqual(rig);
});

const cables = [
  "take:out > wash:in",
  "wash:out left > barn:in left",
  "wash:out right > barn:in right",
  "barn:out left > big:in left",
  "barn:out right > big:in right",
  "big:out left > destination:in left",
  "big:out right > destination:in right",
];

/** Lines: wirings 6, mine 7, label 8, boxes 9, wash 10, then the boxes of one's own, then the cables. */
const drawn = (...boxes: readonly string[]) => drawnWith(boxes, cables);
const drawnWith = (
  boxes: readonly string[],
  wires: readonly string[],
  label = "Mine",
  id = "mine",
) => `name: Drawn
pedals:
  - { name: Wash, model: chorus, jacks: mono-to-stereo }
  - { name: Tank, model: spring, jacks: mono, alternatives: [{ name: Barn, model: hall, jacks: stereo }] }
playsInto: stereo-desk
wirings:
  ${id}:
    label: ${label}
    boxes:
      wash: { box: pedal, pedal: Wash }
${boxes.map((box) => `      ${box}\n`).join("")}    cables:
${wires.map((cable) => `      - ${cable}\n`).join("")}`;

describe("each fault of a drawing stands where it is, by line and column", () => {
  const tank = "tank: { box: pedal, pedal: Tank }";
  const split = "split: { box: splitter }";
  const through = ["take:out > wash:in", "wash:out left > destination:in left"];
  test.each<readonly [string, string, readonly string[]]>([
    [
      "two outputs into one input",
      drawnWith([split], ["take:out > split:in", "split:out 1 > wash:in", "split:out 2 > wash:in"]),
      [
        'rig.yaml:15:9: "wash:in" already takes "split:out 1"; two outputs are never tied together. Use a summing box or a mixer.',
      ],
    ],
    [
      "one output into two inputs",
      drawnWith([tank], [...through, "take:out > tank:in"]),
      ['rig.yaml:15:9: "take:out" already feeds "wash:in"; one jack holds one plug. Use a splitter.'],
    ],
    [
      "a loop, at the cable that closes it",
      drawnWith(
        ["sum: { box: summing-box }"],
        [
          "take:out > sum:in 1",
          "sum:out > wash:in",
          "wash:out left > destination:in left",
          "wash:out right > sum:in 2",
        ],
      ),
      [
        "rig.yaml:16:9: sum > wash > sum is a loop; a signal may not come back to a box it left. Take one of these cables out.",
      ],
    ],
    [
      "an output that goes nowhere",
      drawnWith(
        [split, tank],
        [
          "take:out > split:in",
          "split:out 1 > wash:in",
          "split:out 2 > tank:in",
          "wash:out left > destination:in left",
        ],
      ),
      ['rig.yaml:12:7: what leaves "tank" goes nowhere; cable it on or take it out.'],
    ],
    [
      "a box that nobody feeds",
      drawnWith([split], [...through, "split:out 1 > destination:in right"]),
      ['rig.yaml:11:7: no sound reaches "split"; cable it in or take it out.'],
    ],
    [
      "no way to desk or amps",
      drawnWith([], ["take:out > wash:in"]),
      [
        'rig.yaml:7:3: no sound reaches "destination", what the rig plays into; cable a way to it from "take", the instrument.',
        'rig.yaml:10:7: what leaves "wash" goes nowhere; cable it on or take it out.',
      ],
    ],
    [
      "a jack that an amp does not have",
      drawnWith([], through)
        .replace("stereo-desk", "one-amp")
        .replace("destination:in left", "destination:in right"),
      ['rig.yaml:13:9: "destination" has no input jack "in right"; its input jacks are in.'],
    ],
    [
      "stereo of what is no mono pedal",
      drawnWith([], through).replace("pedal: Wash }", "pedal: Wash, stereo: true }"),
      [
        'rig.yaml:10:48: stereo is true; only a mono pedal has one of its kind in stereo, and "Wash" has more jacks. Take it out.',
      ],
    ],
    [
      "the label of another wiring",
      drawnWith([], through, "reverb FIRST"),
      [
        'rig.yaml:8:12: label is "reverb FIRST"; "unit-first" has that label (capitals do not count). Give each wiring a label of its own.',
      ],
    ],
    [
      "the label of another drawing",
      `${drawnWith([], through)}  yours: { label: mine, boxes: {}, cables: ["take:out > destination:in"] }\n`,
      [
        'rig.yaml:14:19: label is "mine"; "mine" has that label (capitals do not count). Give each wiring a label of its own.',
      ],
    ],
    [
      "the id of a plan",
      drawnWith([], through, "Mine", "barn-first"),
      ['rig.yaml:7:3: "barn-first" is the id of a plan of this rig. Give the wiring another id.'],
    ],
  ])("%s", (_what, text, faults) => {
    expect(faultsOf(text)).toEqual(faults);
  });
});

test("a pedal's other name goes into drawings by their boxes' pedals alone, and leaves ids and labels", () => {
  const text = drawnWith(
    ["tank: { box: pedal, pedal: tank }"],
    ["take:out > wash:in", "wash:out > tank:in", "tank:out > destination:in"],
    "tank",
  ).replace("name: Tank", "name: tank");
  const { data } = checkRig(text, "rig.yaml");
  const renamed = parseRig(editRig(text, renamedPedal(data, 1, "Boiler")), "rig.yaml");
  expect(renamed.wirings.mine.boxes.tank).toMatchObject({ pedal: "Boiler" });
  expect(renamed.wirings.mine.label).toBe("tank");
});

test("a drawing is a routing beside the others, with its place in no plan", () => {
  const rig = rigOf([pedal("Wash", "chorus", "mono-to-stereo"), pedal("Tank", "spring", "mono")]);
  const read = withCopies(rig, [wiringOf(rig, "parallel")!]);
  expect(routingsOf(read).at(-1)).toMatchObject({ id: "copy-0", label: "Copy 0", plan: null, reason: null });
});

test("a box that comes onto a board is called unlike every pedal of the rig", () => {
  const rig = rigOf([pedal("Mixer", "hall", "mono"), pedal("mixer 2", "delay", "mono")]);
  const mixer = { box: "mixer", inputs: [{ gainDb: 0, pan: 0 }], outputs: 2 } as const;
  const own = { box: "pedal", pedal: "Mixer", fullyWet: false, settings: {} } as const;
  expect(newBoxId("mixer", mixer, [], rig)).toBe("mixer-3");
  expect(newBoxId("mixer", mixer, ["mixer-3"], rig)).toBe("mixer-4");
  expect(newBoxId("Mixer", own, [], rig)).toBe("mixer");
  expect(newBoxId("Take", own, [], rig)).toBe("take-2");
});

test("a drawing that leaves out a pedal of the rig is doubted by name, and one that holds all is not", () => {
  const rig = rigOf([pedal("Swing", "tremolo", "mono-to-stereo"), pedal("Tank", "plate", "mono")]);
  const doubtOf = (wirings: Rig["wirings"]) =>
    routingsOf({ ...rig, wirings }).find(({ id }) => id === "own")?.doubt;
  const all = { label: "Own", ...handCopy(wiringOf(rig, "parallel") as Wiring, rig) };
  expect(doubtOf({ own: all })).toBe(null);
  const boxes = { swing: { box: "pedal", pedal: "Swing" } } as const;
  const cables = [
    "take:out > swing:in",
    "swing:out left > destination:in left",
    "swing:out right > destination:in right",
  ];
  const text = `${toYaml(rig)}wirings: { own: { boxes: ${JSON.stringify(boxes)}, cables: ${JSON.stringify(cables)} } }\n`;
  expect(doubtOf(parseRig(text, "rig.yaml").wirings)).toBe("It leaves out Tank.");
});
