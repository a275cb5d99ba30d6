import { readFileSync } from "node:fs";
import { beforeAll, expect, test } from "vitest";
import { parseRig } from "../../../src/rig/file/parseRig.js";
import { initialiseFft } from "../../../src/sound/dsp/fft.js";
import { familiesOf } from "../../../src/work/sweep/families.js";
import { figureColumns, figuresOf } from "../../../src/work/sweep/figures.js";
import { GridRigs, wiringFor } from "../../../src/work/sweep/gridRigs.js";
import { renderFigures } from "../../../src/work/sweep/renderFigures.js";
import { layoutOf } from "../../../src/work/sweep/sweepLayout.js";
import { noise } from "../../signals.js";
import { expectWithin } from "../../within.js";
import { bruteForce } from "./bruteForce.js";
import { values } from "./smallSweep.js";

const path = new URL("../../../fixtures/rigs/ferry-road.yaml", import.meta.url);
const rig = parseRig(readFileSync(path, "utf8"), "ferry-road");
const rateHz = 24_000;

beforeAll(() => initialiseFft());

/** A law that must hold, whatever measures there are: what no mixing of stems tells is told by the render. */
test("every figure that takes a render is taken of it", () => {
  const take = noise({ seed: 12, frames: rateHz / 2, rms: 0.1 });
  const plan = {
    groups: [[values("mixer.returnDb", -9, -3)]],
    sample: null,
    seed: 1,
    routings: ["parallel"],
    reference: null,
    tolerance: null,
    frames: rateHz,
  };
  const gridRigs = new GridRigs(rig, plan);
  const [{ block, settings, places }] = layoutOf(plan, familiesOf(plan, gridRigs), rateHz).units;
  const job = { rig, plan, take, rateHz, clips: new Map(), block, track: 0, settings, places };
  const found = renderFigures(job);
  expect(found).toHaveLength(2);
  for (const { setting, figures } of found) {
    const sound = figuresOf(
      bruteForce(wiringFor(gridRigs.rigAt(places[setting], 0), "parallel"), take, rateHz, rateHz),
    );
    figureColumns.forEach(({ id, isRendered }, k) => {
      if (!isRendered) return;
      expect(figures[k], id).not.toBeNull();
      if (sound[k] !== null) expectWithin(figures[k], sound[k], 1e-4);
    });
  }
});
