import { join } from "node:path";
import type { Locator, Page } from "playwright-core";
import { beforeAll, expect, test } from "vitest";
import { renderBest } from "../../src/node/sweep/renderBest.js";
import { initialiseFft } from "../../src/sound/dsp/fft.js";
import type { Report } from "../../src/work/compare/report.js";
import type { JudgedResults } from "../../src/work/sweep/judgedResults.js";
import { pointsForPage } from "../../src/work/sweep/pointsForPage.js";
import { pedal, rigOf } from "../rigs.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { expectWithin } from "../within.js";
import { shortTake, smallSweep, values } from "../work/sweep/smallSweep.js";
import { axeFindings } from "./axe.js";
import { describeInChromium } from "./chromium.js";

const rig = rigOf([
  pedal("Weir", "tremolo", "mono-to-stereo", { spreadDegrees: 180 }),
  pedal("Drift", "delay", "mono", { delayMs: 31, mix: 0.4 }),
]);
const groups = [
  [values("mixer.returnDb", -18, -12, -6, 0)],
  [values("Drift.delayMs", 20, 40, 80)],
  [values("mixer.returnPan", 0, 0.5)],
];

describeInChromium("a sweep on the page", (open) => {
  const folder = temporaryFolder();
  const file = join(folder, "page", "report.html");
  let judged: JudgedResults;
  beforeAll(async () => {
    await initialiseFft();
    ({ judged } = await smallSweep(rig, folder, {
      groups,
      wishes: { want: ["sideShare>=0.05"], most: [], least: ["foldDownLossDb"] },
      request: { routings: ["parallel", "parallel-after"] },
    }));
    const take = shortTake();
    const written = await renderBest({
      judged,
      take,
      rigFile: null,
      outDir: folder,
      count: 1,
      tailSeconds: 1,
      threads: 0,
    });
    expect(written).toContain("page/report.html");
  });

  const settled = (page: Page) => page.waitForFunction(() => window.splitsum?.progress === null);
  const report = (page: Page): Promise<Report> => page.evaluate(() => window.splitsum!.report!);
  const mixer = (page: Page) => page.evaluate(() => window.splitsum!.rig.mixer);

  /**
   * The rig stands as a point has it, and what is measured of it is what the sweep found there. Loudness is left out: of
   * a second of sound it depends on the tail, which a sweep has for all of its settings alike.
   */
  async function expectHeard(page: Page, n: number): Promise<void> {
    await settled(page);
    const points = pointsForPage(judged);
    const id = points.routings[points.routing[n]];
    expect(await page.evaluate(() => window.splitsum!.player.chosen)).toBe(id);
    const { measures } = (await report(page)).routings.find((routing) => routing.id === id)!;
    expectWithin(measures!.sideShare, points.figures.sideShare[n]!, 1e-3, "of the energy");
    expectWithin(measures!.foldDownLossDb, points.figures.foldDownLossDb[n]!, 0.01, "dB");
  }
  const numberOfRank = (rank: number) => pointsForPage(judged).rank.indexOf(rank);

  test("the first of all is read at first; the button sets the rig to it, and it measures so", async () => {
    const { page, complaints } = await open(file);
    await settled(page);
    const section = page.locator("#sweep");
    expect(await section.locator(".lead").textContent()).toContain("24 settings by 2 routings");
    expect(await section.locator(".lead").textContent()).toContain(
      "Wished: side share at least 5 % of the energy.",
    );
    expect(await section.locator(".reading").textContent()).toMatch(/^Rank 1, /);
    await section.getByRole("button", { name: "Set the rig to it" }).click();
    await expectHeard(page, numberOfRank(1));
    expect(complaints).toEqual([]);
  });

  test("by keys alone: arrows walk the settings, Enter sets the rig", async () => {
    const { page } = await open(file);
    await settled(page);
    const walk = page.getByRole("slider", { name: /^Settings in sight/ });
    await walk.focus();
    await page.keyboard.press("Home");
    await page.keyboard.press("ArrowRight");
    const words = (await walk.getAttribute("aria-valuetext"))!;
    const rank = Number(/^Rank (\d+),/.exec(words)![1]);
    expect(await page.locator(".reading").textContent()).toMatch(new RegExp(`^Rank ${rank}, `));
    // Second from the least on the axis across, which is the second measure that was chosen.
    const points = pointsForPage(judged);
    const losses = [...points.figures.sideShare].sort((a, b) => a! - b!);
    expect(points.figures.sideShare[numberOfRank(rank)]).toBe(losses[1]);
    await page.keyboard.press("Enter");
    await expectHeard(page, numberOfRank(rank));
  });

  test("a knob's slider reads the setting with that knob turned and the others left", async () => {
    const { page } = await open(file);
    await settled(page);
    const reading = page.locator(".reading");
    const before = (await reading.textContent())!;
    const slider = page.getByRole("slider", { name: "Drift delay (ms)" });
    await slider.fill("0");
    expect(await reading.textContent()).toContain("Drift delay 20");
    await slider.fill("2");
    expect(await reading.textContent()).toContain("Drift delay 80");
    const returns = /mixer return [^,]+/;
    expect((await reading.textContent())!.match(returns)).toEqual(before.match(returns));
  });

  test("a mark under the pointer is read, and a click on it sets the rig", async () => {
    const { page } = await open(file);
    await settled(page);
    const chart = page.locator("#sweep figure").first().locator("svg.chart");
    const middle = async (part: Locator) => {
      const { x, y, width, height } = (await part.boundingBox())!;
      return { x: x + width / 2, y: y + height / 2 };
    };
    // Rank 1 is ringed; where that is in the chart is kept, and the ring sent away.
    const ring = await middle(chart.locator(".cursor"));
    const before = (await chart.boundingBox())!;
    await page.getByRole("slider", { name: /^Settings in sight/ }).press("Home");
    const reading = page.locator(".reading");
    expect(await reading.textContent()).not.toMatch(/^Rank 1, /);
    await chart.scrollIntoViewIfNeeded();
    const after = (await chart.boundingBox())!;
    const spot = [ring.x - before.x + after.x, ring.y - before.y + after.y] as const;
    await page.mouse.move(...spot);
    expect(await reading.textContent()).toMatch(/^Rank 1, /);
    await page.mouse.click(...spot);
    await expectHeard(page, numberOfRank(1));
  });

  test("a cell that is clicked sets both of its knobs", async () => {
    const { page } = await open(file);
    await settled(page);
    const chart = page.locator("#sweep figure").nth(1).locator("svg.chart");
    await chart.scrollIntoViewIfNeeded();
    const cells = chart.locator("rect:not(.under, .over)");
    // Four returns by three delays; the pan stands as in the setting that is read.
    expect(await cells.count()).toBe(12);
    await cells.first().click({ force: true });
    await settled(page);
    const words = (await page.locator(".reading").textContent())!;
    const { returnDb, returnPan } = await mixer(page);
    expect(words).toContain(`mixer return ${String(returnDb).replace("-", "\u2212")}\u00a0dB`);
    expect(words).toContain(`mixer return pan ${returnPan}`);
    const delayMs = await page.evaluate(() => window.splitsum!.rig.pedals[1].settings.delayMs);
    expect(words).toContain(`Drift delay ${delayMs}\u00a0ms`);
  });

  test("other measures, one routing and the front alone can be chosen; the table follows", async () => {
    const { page } = await open(file);
    await settled(page);
    const section = page.locator("#sweep");
    await section.getByLabel("Axis up, and colour of the cells").selectOption("integratedLufs");
    await section.getByLabel("Routing", { exact: true }).selectOption("parallel-after");
    await section.getByLabel("The front alone").check();
    const figure = section.locator("figure").first();
    await figure.getByText("Table", { exact: true }).click();
    await figure.locator("tbody tr").first().waitFor();
    const points = pointsForPage(judged);
    const ranks = points.rank.filter(
      (_, n) => points.front[n] === 1 && points.routings[points.routing[n]] === "parallel-after",
    );
    const shown = await figure.locator("tbody th").allTextContents();
    expect(shown).toEqual(ranks.sort((a, b) => a - b).map(String));
    expect(await figure.locator("thead").textContent()).toContain("loudness");
    expect(await figure.locator("svg.chart").textContent()).toContain("loudness (LUFS)");
    await figure.getByRole("button").first().click();
    await expectHeard(page, numberOfRank(Number(shown[0])));
  });

  test("axe finds nothing, and nothing runs out at 320 px", async () => {
    const { page } = await open(file, { viewport: { width: 320, height: 800 } });
    await settled(page);
    for (const summary of await page.locator("#sweep summary").all()) await summary.click();
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
    expect(await axeFindings(page, "#sweep")).toEqual([]);
  });
});
