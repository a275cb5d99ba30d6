import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { parseRig } from "../../../src/rig/file/parseRig.js";
import { toYaml } from "../../../src/rig/file/toYaml.js";
import { routingsOf, wiringOf } from "../../../src/rig/routings/routingsOf.js";
import { checkWiring } from "../../../src/rig/wiring/check.js";
import { MixCompiler } from "../../../src/work/render/mixCompiler.js";
import { bestRig } from "../../../src/work/sweep/bestRig.js";
import { GridRigs } from "../../../src/work/sweep/gridRigs.js";
import { pedal, rigOf } from "../../rigs.js";
import { values } from "./smallSweep.js";

/** A law: two wirings that name the same signals with the same gains sound the same, whatever their boxes are called. */
test.each(["ferry-road", "mill-loft", "quay-piano"])(
  "settings of %s, drawn by hand, are the same sound",
  (name) => {
    const text = readFileSync(new URL(`../../../fixtures/rigs/${name}.yaml`, import.meta.url), "utf8");
    const rig = parseRig(text, name);
    const groups = [
      [values(`${rig.pedals.at(-1)!.name}.levelDb`, -6, 3), values("mixer.returnPan", -0.3, 0.4)],
    ];
    const gridRigs = new GridRigs(rig, { groups, seed: 1, tolerance: { percent: 5, draws: 1 } });
    const best = [0, 1].flatMap((place) =>
      routingsOf(rig).flatMap(({ id, wiring }) => {
        const own = wiring && wiringOf(gridRigs.rigAt(place, place), id);
        return own
          ? [{ id: `best-${place}-${id}`.slice(0, 40), label: `${place + 1}: ${id}`, wiring: own }]
          : [];
      }),
    );
    expect(best.length).toBeGreaterThanOrEqual(16);
    // By way of the file: what is kept can be read again.
    const kept = parseRig(toYaml(bestRig(rig, best)), "best.yaml");
    for (const { id, wiring } of best) {
      const drawn = wiringOf(kept, id)!;
      expect(checkWiring(drawn)).toEqual([]);
      const compiler = new MixCompiler({ rateHz: 48_000 });
      expect(compiler.destinationOf(drawn)).toEqual(compiler.destinationOf(wiring));
    }
  },
);

test("units stay units, so that wet to dry is known", () => {
  const text = readFileSync(new URL("../../../fixtures/rigs/ferry-road.yaml", import.meta.url), "utf8");
  const rig = parseRig(text, "ferry-road");
  const wiring = wiringOf(rig, "unit-first")!;
  const kept = bestRig(rig, [{ id: "best-1", label: "1", wiring }]);
  const isUnit = (drawn: typeof wiring) =>
    drawn.boxes.flatMap((box) => (box.kind === "pedal" ? [[box.pedal.name, box.isUnit]] : []));
  expect(isUnit(wiringOf(kept, "best-1")!)).toEqual(isUnit(wiring));
});

/** Names that hold each other, and a stereo unit that goes by another name. */
test("pedals stand in the order of the rig, a stereo unit where its mono unit does", () => {
  const rig = rigOf([
    pedal("Old Echo", "tremolo", "mono-to-stereo"),
    pedal("Tank", "spring", "mono", {}, { alternatives: [pedal("Barn", "hall", "stereo")] }),
    pedal("Echo", "delay", "mono"),
  ]);
  const best = ["stereo-unit", "series-mono"].map((id) => ({ id, label: id, wiring: wiringOf(rig, id)! }));
  const names = bestRig(rig, best).pedals.map(({ name }) => name);
  expect(names).toEqual(["Old Echo", "Barn", "Tank", "Stereo Echo", "Echo"]);
});
