import { readFileSync } from "node:fs";
import { beforeAll, expect, test } from "vitest";
import { parseRig } from "../../../src/rig/file/parseRig.js";
import type { AxisGroup } from "../../../src/rig/model/axis.js";
import type { Rig } from "../../../src/rig/model/rig.js";
import { routingsOf } from "../../../src/rig/routings/routingsOf.js";
import { initialiseFft } from "../../../src/sound/dsp/fft.js";
import type { Figure } from "../../../src/sound/measure/measure.js";
import { familiesOf } from "../../../src/work/sweep/families.js";
import { figureColumns, figureNames, figuresOf, needsRender } from "../../../src/work/sweep/figures.js";
import { GridRigs, wiringFor } from "../../../src/work/sweep/gridRigs.js";
import { mixUnit } from "../../../src/work/sweep/mixUnit.js";
import type { SweepPlan } from "../../../src/work/sweep/plan.js";
import { renderBlock } from "../../../src/work/sweep/renderBlock.js";
import { layoutOf } from "../../../src/work/sweep/sweepLayout.js";
import { firstOf } from "../../longForm.js";
import { expectWithin } from "../../within.js";
import { guitar } from "../capture/guitars.js";
import { bruteForce } from "./bruteForce.js";
import { values } from "./smallSweep.js";

beforeAll(() => initialiseFft());

const rigFrom = (name: string): Rig =>
  parseRig(readFileSync(new URL(`../../../fixtures/rigs/${name}.yaml`, import.meta.url), "utf8"), name);

function planOf(groups: readonly AxisGroup[], routings: readonly string[], frames: number): SweepPlan {
  return { groups, sample: null, seed: 1, routings, reference: null, tolerance: null, frames };
}

const close = (name: string): number => {
  // A gain behind the last kernel is one rounding to single precision more in a render than in a mix of stems.
  if (name === "correlation" || name === "sideShare") return 4e-9;
  if (name.endsWith("Lufs") || name.endsWith("Lu") || name.endsWith("Db")) return 1e-3;
  if (name.endsWith("Hz")) return 1e-2;
  // A slope over thirds: as close as their levels are, and those of nearly empty bands hang on the render's rounding.
  if (name === "tiltDbPerOctave") return 1e-4;
  return 1e-6;
};

/** Figures that take a render, with those that are never lower. */
const bounds = figureColumns.flatMap(({ id, atMost }) => (atMost === null ? [] : [{ id, atMost }]));

/** Every setting of a sweep against the same wiring rendered and measured by itself. */
function expectAsRendered(rig: Rig, plan: SweepPlan, take: Float32Array, rateHz: number): void {
  const gridRigs = new GridRigs(rig, plan);
  const layout = layoutOf(plan, familiesOf(plan, gridRigs), rateHz);
  for (const unit of layout.units) {
    const products = renderBlock({ rig, plan, take, rateHz, clips: new Map(), block: unit.block });
    for (const { setting, routing, draw, figures } of mixUnit({
      rig,
      plan,
      rateHz,
      unit,
      blockKey: crypto.randomUUID(),
      products,
    })) {
      const wiring = wiringFor(gridRigs.rigAt(layout.places[setting], draw), routing);
      const expected = figuresOf(bruteForce(wiring, take, rateHz, plan.frames));
      const figureOf = (name: string, among: readonly Figure[]) => among[figureNames.indexOf(name)];
      figureNames.forEach((name, k) => {
        if (name.startsWith("comb") || bounds.some(({ atMost }) => atMost === name)) return;
        if (needsRender(name) && figures[k] === null) return;
        near(`${routing} ${setting} ${name}`, figures[k], expected[k], close(name));
      });
      for (const { id, atMost } of bounds) {
        const found = figureOf(id, expected);
        if (found !== null) expect(figureOf(atMost, figures), atMost).toBeGreaterThan(found - 1e-6);
      }
    }
  }
}

function near(what: string, ours: Figure, theirs: Figure, by: number): void {
  if (theirs === null) expect(ours, what).toBeNull();
  else expectWithin(ours, theirs, by, what);
}

const mixerKnobs: readonly AxisGroup[] = [
  [values("mixer.returnDb", -24, -3.5, 6)],
  [values("mixer.returnPan", -0.4, 1)],
  [values("mixer.dryDb", -9, 0)],
];

const pairs = [
  ["guit_e_slide", "mill-loft"],
  ["guit_em9", "ferry-road"],
  ["guit_harmonics", "quay-piano"],
] as const;
test.each(firstOf<(typeof pairs)[number]>(pairs, 1))(
  "%s through every routing with a mixer, %s",
  async (name, rigName) => {
    const { rateHz, channels } = await guitar(name);
    const take = channels[0].subarray(0, rateHz);
    const frames = take.length + rateHz / 2;
    const rig = rigFrom(rigName);
    const plan = planOf(mixerKnobs, ["parallel", "parallel-after"], frames);
    const families = familiesOf(plan, new GridRigs(rig, plan));
    expect(families).toHaveLength(1);
    expect(families[0]).toMatchObject({ structural: [], rendered: false });
    expectAsRendered(rig, plan, take, rateHz);
  },
);

/**
 * Every routing of every rig, second units that are off among them: what the planner calls a mixer setting is mixed,
 * the rest is rendered, and all of it is what rendering each setting by itself gives.
 */
test.each(firstOf(["quay-piano", "ferry-road", "mill-loft"], 2))(
  "every routing of %s, mixed or rendered",
  async (name) => {
    const { rateHz, channels } = await guitar("guit_e_fifths");
    const take = channels[0].subarray(0, rateHz / 2);
    const rig = rigFrom(name);
    const units = { "ferry-road": "Boiler tank", "mill-loft": "Grain floor", "quay-piano": "Counting house" };
    const unit = units[name as keyof typeof units];
    const routings = routingsOf(rig).flatMap(({ id, wiring }) => (wiring ? [id] : []));
    const groups = [
      [values(`${unit}.decaySeconds`, 0.9, 2.1)],
      [values(`${unit}.mix`, 0, 0.4)],
      [values(`${unit}.levelDb`, -6, 2), values("mixer.returnPan", 0.7, -0.2)],
    ];
    const plan = {
      ...planOf(groups, routings, take.length + rateHz / 4),
      tolerance: { percent: 5, draws: 1 },
    };
    expectAsRendered(rig, plan, take, rateHz);
  },
);

test("the planner finds by itself which knobs are mixer settings of which routing", () => {
  const rig = rigFrom("mill-loft");
  const groups = [
    [values("mixer.returnDb", -12, 0)],
    [values("Grain floor.mix", 0.2, 0.4)],
    [values("Wheelrace.mix", 0.2, 0.4)],
    [values("Ember.levelDb", -6, 0)],
    [values("one-return.mixer.in 3.gainDb", -9, -3)],
  ];
  const routings = ["series-mono", "parallel", "parallel-after", "one-return"];
  const plan = planOf(groups, routings, 1000);
  const mixerSettings = Object.fromEntries(
    familiesOf(plan, new GridRigs(rig, plan)).flatMap(({ routings: own, structural }) => {
      const knobs = groups.flatMap((group, g) => (structural.includes(g) ? [] : [group[0].path]));
      return own.map((routing) => [routing, knobs]);
    }),
  );
  // Knobs that a routing does not have change nothing there: they are mixer settings like any.
  const [aReturn, handReturn] = ["mixer.returnDb", "one-return.mixer.in 3.gainDb"];
  expect(mixerSettings).toEqual({
    // The hall is last: its dry and wet are summed at the destination.
    "series-mono": [aReturn, "Grain floor.mix", handReturn],
    // The chorus is last before the mixer: its dry and wet are summed there.
    parallel: [aReturn, "Grain floor.mix", "Wheelrace.mix", handReturn],
    "parallel-after": [aReturn, "Grain floor.mix", handReturn],
    "one-return": [aReturn, "Grain floor.mix", "Wheelrace.mix", handReturn],
  });
});
