import { expect, test } from "vitest";
import { wiringOf } from "../../../src/rig/routings/routingsOf.js";
import { fedThrough } from "../../../src/rig/wiring/loading.js";
import type { Wiring } from "../../../src/rig/wiring/wiring.js";
import { toneLayout } from "../../../src/work/capture/toneLayout.js";
import { toneSettingsOf } from "../../../src/work/capture/toneSettings.js";
import { boardResponse } from "../../../src/work/proof/boardResponse.js";
import { faultsOf } from "../../../src/work/proof/faults.js";
import { proofGrid } from "../../../src/work/proof/proofGrid.js";
import { UnitSpectra } from "../../../src/work/proof/unitSpectra.js";
import { pedal, rigOf, soldBox } from "../../rigs.js";
import { expectWithin } from "../../within.js";

const tone = toneSettingsOf({ rateHz: 16_000, toHz: 7000, lengthSeconds: 0.5 });
const grid = proofGrid(tone.rateHz);
const units = new UnitSpectra(grid, new Map(), toneLayout(tone));
const moment = { feed: "both", phaseDegrees: () => 0, driveGain: 1 } as const;

/**
 * Ohm's law: a source of 10 kilohms into 1 megohm keeps 1000 / 1010; by a passive Y into 500 and 47 kilohms side by side
 * 42.96 / 52.96. 0.3 m of cable at 100 pF/m do nothing at 1 kHz.
 */
test("a Y in place of a buffer takes what the divider takes", () => {
  const rig = rigOf(
    [
      pedal("Ripple", "chorus", "mono-to-stereo", { mix: 0 }, { inputOhms: 500_000, outputOhms: 1 }),
      pedal("Tank", "delay", "mono", {}, { inputOhms: 47_000, outputOhms: 1 }),
    ],
    {
      boxes: {
        splitter: [soldBox({ inputOhms: 1e6, outputOhms: 0 })],
        "summing-box": [],
        mixer: [soldBox()],
      },
      cables: { instrumentMetres: 0.3, patchMetres: 0.3, outputMetres: 0.3, picofaradsPerMetre: 100 },
    },
  );
  const wiring = fedThrough(wiringOf(rig, "parallel") as Wiring, rig, 10_000);
  const y = faultsOf(wiring).find(({ kind }) => kind === "passive-split");
  const at = (board: Parameters<typeof boardResponse>[0]) => {
    const [left] = boardResponse(board, moment, units, grid);
    const bin = Math.round(1000 / grid.binHz);
    return left === null ? 0 : Math.hypot(left.re[bin], left.im[bin]);
  };
  const plan = { wiring: muted(wiring), inverted: new Set<string>(), stuckOff: new Set<string>() };
  const passive = y?.board(0);
  if (!passive) throw new Error("no Y");
  const load = 1 / (1 / 500_000 + 1 / 47_000);
  const ratio = load / (load + 10_000) / (1e6 / (1e6 + 10_000));
  expectWithin(at({ ...passive, wiring: muted(passive.wiring) }) / at(plan), ratio, 1e-4);
});

/** The return down, so that the dry sound is alone. */
const muted = ({ boxes, cables }: Wiring): Wiring => ({
  cables,
  boxes: boxes.map((box) =>
    box.kind === "mixer"
      ? { ...box, inputs: box.inputs.map((input, n) => (n === 2 ? { ...input, gainDb: -200 } : input)) }
      : box,
  ),
});

test("a side that no cable reaches is silent", () => {
  const rig = rigOf([pedal("Ripple", "chorus", "mono-to-stereo"), pedal("Tank", "delay", "mono")]);
  const wiring = wiringOf(rig, "one-side") as Wiring;
  const cut = { boxes: wiring.boxes, cables: wiring.cables.filter(({ to }) => to.jack !== "in right") };
  const [left, right] = boardResponse(
    { wiring: cut, inverted: new Set(), stuckOff: new Set() },
    moment,
    units,
    grid,
  );
  expect(left).not.toBeNull();
  expect(right).toBeNull();
});
