import { readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import { initialiseFft } from "../../../src/sound/dsp/fft.js";
import { gridSize, settingsAt, stepsAt } from "../../../src/work/sweep/grid.js";
import type { PageSweep } from "../../../src/work/sweep/pageSweep.js";
import { pointsForPage } from "../../../src/work/sweep/pointsForPage.js";
import { pedal, rigOf } from "../../rigs.js";
import { temporaryFolder } from "../../temporaryFolder.js";
import { smallSweep, values } from "./smallSweep.js";

beforeAll(() => initialiseFft());

const rig = rigOf([
  pedal("Weir", "tremolo", "mono-to-stereo", { spreadDegrees: 180 }),
  pedal("Drift", "delay", "mono", { delayMs: 31, mix: 0.4 }),
]);
const range = (from: number, to: number, count: number) =>
  Array.from({ length: count }, (_, n) => from + ((to - from) * n) / (count - 1));
const groups = [
  [values("mixer.returnDb", ...range(-30, 6, 37))],
  [values("mixer.returnPan", ...range(-1, 1, 21))],
];
const swept = async (folder: string, sample: number | null = null) =>
  (
    await smallSweep(rig, folder, {
      groups,
      wishes: { want: ["sideShare>=0.1"], most: [], least: ["foldDownLossDb"] },
      request: { routings: ["parallel", "parallel-after"], sample },
    })
  ).judged;

interface Row {
  readonly setting: number;
  readonly routing: string;
  readonly settings: readonly unknown[];
  readonly rank: number;
  readonly meets: boolean;
  readonly front: boolean;
  readonly figures: readonly (number | null)[];
}

/** Every point is a row of sweep.json, to six digits. */
function expectOfFile(page: PageSweep, folder: string): void {
  const { results, figureNames } = JSON.parse(readFileSync(join(folder, "sweep.json"), "utf8"));
  const rows = new Map((results as Row[]).map((row) => [`${row.setting} ${row.routing}`, row]));
  page.setting.forEach((setting, n) => {
    const row = rows.get(`${setting} ${page.routings[page.routing[n]]}`)!;
    expect(Object.values(settingsAt(page.vary, page.place[n]))).toEqual(row.settings);
    expect([page.rank[n], page.front[n] === 1, page.meets[n] === 1]).toEqual([
      row.rank,
      row.front,
      row.meets,
    ]);
    for (const name of ["sideShare", "foldDownLossDb", "integratedLufs"]) {
      const figure = row.figures[figureNames.indexOf(name)]!;
      expect(page.figures[name][n]).toBe(Number(figure.toPrecision(6)));
    }
  });
}

test("a sweep that fits travels whole", async () => {
  const folder = temporaryFolder();
  const page = pointsForPage(await swept(folder));
  expect(page.place.length).toBe(2 * gridSize(groups));
  expect(page.even).not.toContain(0);
  expect([page.results, page.settings]).toEqual([2 * 37 * 21, 37 * 21]);
  expect(page.want).toEqual(["sideShare>=0.1"]);
  expectOfFile(page, folder);
});

test("of a larger one a coarser even grid travels, with both ends, the front and the best", async () => {
  const folder = temporaryFolder();
  const judged = await swept(folder);
  const whole = pointsForPage(judged);
  const page = pointsForPage(judged, 800);
  expect(page.place.length).toBeLessThanOrEqual(800);
  expect(page.place.length).toBeGreaterThan(250);
  expect(page.results).toBe(1554);
  expectOfFile(page, folder);
  const key = ({ setting, routing }: PageSweep, n: number) => `${setting[n]} ${routing[n]}`;
  const kept = new Set(page.setting.map((_, n) => key(page, n)));
  const front = whole.setting.flatMap((_, n) => (whole.front[n] === 1 ? [key(whole, n)] : []));
  const best = whole.setting.flatMap((_, n) => (whole.rank[n] <= 250 ? [key(whole, n)] : []));
  for (const one of [...front.slice(0, 250), ...best]) expect(kept).toContain(one);
  // Steps of either knob, as even as whole steps can be; each with each, in both routings.
  const even = page.place.filter((_, n) => page.even[n] === 1).map((place) => stepsAt(page.vary, place));
  const [returns, pans] = [0, 1].map((g) =>
    [...new Set(even.map((steps) => steps[g]))].sort((a, b) => a - b),
  );
  expect(even.length).toBe(2 * returns.length * pans.length);
  for (const used of [returns, pans]) {
    const gaps = used.slice(1).map((step, n) => step - used[n]);
    expect(Math.max(...gaps) - Math.min(...gaps)).toBeLessThanOrEqual(1);
  }
  expect([returns[0], returns.at(-1), pans[0], pans.at(-1)]).toEqual([0, 36, 0, 20]);
});

test("of settings by chance every so many travel", async () => {
  const folder = temporaryFolder();
  const page = pointsForPage(await swept(folder, 700), 700);
  expect(page.place.length).toBeLessThanOrEqual(700);
  expect(page.settings).toBe(700);
  expectOfFile(page, folder);
});
