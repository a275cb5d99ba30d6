import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { beforeAll, expect, test } from "vitest";
import { demoRigs } from "../../src/demo/writeDemo.js";
import { benchPage } from "../../src/node/page/benchPage.js";
import { encodeWav } from "../../src/sound/audio/encodeWav.js";
import type { Report } from "../../src/work/compare/report.js";
import { noise } from "../signals.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { describeInChromium } from "./chromium.js";
import { comparison, expectSameFigures } from "./comparison.js";

const rateHz = 16_000;
const take = { channels: [noise({ seed: 8, frames: rateHz, rms: 0.1 })], rateHz, bits: 24 } as const;

describeInChromium("the bench", (open) => {
  const folder = temporaryFolder();
  let file: string;

  /** An empty board with a short take and the examples. */
  beforeAll(async () => {
    const takeFile = join(folder, "take.wav");
    writeFileSync(takeFile, encodeWav(take, 24));
    const { html } = await benchPage({
      rigFile: null,
      takeFiles: [takeFile],
      examples: demoRigs(),
      tailSeconds: 2,
    });
    file = join(folder, "bench.html");
    writeFileSync(file, html);
  });

  const settled = (page: Page) =>
    page.waitForFunction(() => window.splitsum?.progress === null && window.splitsum.report !== null);
  const add = async (page: Page, model: string, name: string, jacks: string) => {
    await page.evaluate(
      (pedal) => {
        const { desk } = window.splitsum!;
        const { pedals = [] } = desk.data as { pedals?: unknown[] };
        desk.edit("adding", [{ into: ["pedals"], at: pedals.length, add: pedal }]);
      },
      { name, model, jacks },
    );
  };

  const bringTake = (page: Page, wav: Uint8Array) =>
    page.evaluate((letters) => {
      const bytes = Uint8Array.from(letters, (letter) => letter.charCodeAt(0));
      return window.splitsum!.loadTake(new File([bytes], "own.wav"));
    }, Buffer.from(wav).toString("latin1"));

  test("begins empty, is built up, and gives the figures of the command line for the file that it saves", async () => {
    const { page, complaints } = await open(file);
    await page.waitForFunction(() => window.splitsum?.progress === null);
    const parts = () => page.locator("nav a:visible").allTextContents();
    expect(await parts()).toEqual(["Rig", "Take", "Measure"]);
    // A take of one's own before there is a rig: the same sound once more.
    await bringTake(page, encodeWav(take, 24));
    expect(await page.evaluate(() => [window.splitsum!.takeName, window.splitsum!.progress])).toEqual([
      "own.wav",
      null,
    ]);
    await add(page, "tremolo", "Weir", "mono-to-stereo");
    await add(page, "delay", "Echo", "mono");
    await settled(page);
    expect(await parts()).toContain("Hear");
    await add(page, "chorus", "Ford", "stereo");
    await settled(page);
    expect(await page.locator(".sheet:visible svg.wiring .name").allTextContents()).toContain("Ford");
    const text = await page.evaluate(() => window.splitsum!.desk.text);
    const report = await page.evaluate(() => window.splitsum!.report!);
    const command = await comparison(text, take, {}, 2);
    const figures = ({ routings, frames }: Report) => ({
      frames,
      routings: routings.map(({ id, possible, measures, matchGainDb }) => ({
        id,
        possible,
        measures,
        matchGainDb,
      })),
    });
    expectSameFigures(figures(report), figures(command.report), 9);
    await page.evaluate(() => {
      for (let n = 0; n < 3; n++) window.splitsum!.desk.undo();
    });
    expect(await page.locator("#rig .pedal-row").count()).toBe(0);
    expect(complaints).toEqual([]);
  });

  test("a saved page opens with the changed rig, a take of one's own and the same figures, and goes on", async () => {
    const { page } = await open(file);
    await page.waitForFunction(() => window.splitsum?.progress === null);
    await add(page, "tremolo", "Weir", "mono-to-stereo");
    await add(page, "delay", "Echo", "mono");
    const own = encodeWav({ channels: [noise({ seed: 9, frames: 9000, rms: 0.1 })], rateHz }, 24);
    await bringTake(page, own);
    await settled(page);
    const download = page.waitForEvent("download");
    await page.getByRole("button", { name: "Save this page" }).click();
    const saved = join(folder, "saved.html");
    await (await download).saveAs(saved);
    const state = (of: Page) =>
      of.evaluate(() => {
        const { desk, report, takeName } = window.splitsum!;
        return { text: desk.text, report: report!, takeName };
      });
    const before = await state(page);
    const { page: again, complaints } = await open(saved);
    expect((await state(again)).report).toEqual(before.report);
    // What was saved is for who plays: their view comes first, and the bench is one tap further.
    expect(await again.locator("section:visible h2").allTextContents()).toContain("The question");
    await again.getByRole("link", { name: "Everything" }).first().click();
    await settled(again);
    const after = await state(again);
    expect([after.text, after.takeName]).toEqual([before.text, "own.wav"]);
    expectSameFigures(after.report.routings, before.report.routings, 9);
    // Kept as it is, then turned: the kept one stays, measured and played beside the others.
    await again.getByText("Keep this to compare").click();
    await again
      .getByRole("radio", { name: /dry beside|beside/i })
      .first()
      .check();
    const heard = await again.evaluate(() => window.splitsum!.player.chosen);
    await again.getByLabel("Keep what is heard").fill("As it was");
    await again.getByRole("button", { name: "Keep", exact: true }).click();
    await settled(again);
    await again.evaluate(() => window.splitsum!.setSetting("Echo", "mix", 0.9));
    await settled(again);
    const kept = await state(again);
    expect(kept.text).toContain("mix: 0.9");
    const measured = (id: string, { report }: typeof kept) =>
      report.routings.find((routing) => routing.id === id)!.measures!;
    await again.getByRole("link", { name: "The player\u2019s view" }).click();
    const row = again.locator(".short-choices li", { has: again.getByText("As it was", { exact: true }) });
    expect(await row.locator(".rank").textContent()).toBe("kept");
    expect(await row.locator(".costs").textContent()).toMatch(/^Keeps .*\s% of the width/);
    await again.getByRole("link", { name: "Everything" }).first().click();
    expect(measured("kept-1", kept).sideShare).toBeCloseTo(measured(heard, before).sideShare!, 9);
    expect(measured(heard, kept).sideShare).not.toBeCloseTo(measured("kept-1", kept).sideShare!, 3);
    expect(await again.evaluate(() => window.splitsum!.player.choices.slice(-2))).toEqual(["kept-1", "dry"]);
    await again.getByRole("button", { name: "Forget As it was" }).click();
    await settled(again);
    expect(await again.evaluate(() => window.splitsum!.player.choices)).not.toContain("kept-1");
    expect(complaints).toEqual([]);
  });

  test("a measured unit asks for its sound file, and is heard with it as by the command line", async () => {
    const { page, complaints } = await open(file);
    await page.waitForFunction(() => window.splitsum?.progress === null);
    await add(page, "chorus", "Weir", "mono-to-stereo");
    await settled(page);
    const adder = page.locator(".adder");
    await adder.getByLabel("Add a pedal at the end").selectOption("Response");
    await adder.getByRole("button", { name: "Add" }).click();
    const asks = page.locator("#rig .sound-file:visible");
    expect(await asks.textContent()).toMatch(/file is ""; a response's file is text/);
    const name = page.getByLabel("Response, sound file", { exact: true });
    await name.fill("room.wav");
    await name.press("Tab");
    expect(await asks.textContent()).toContain("This page does not hold it: bring it in");
    await expect
      .poll(() => page.evaluate(() => window.splitsum!.fault))
      .toMatch(/^room.wav.* does not hold it/);
    const room = { channels: [noise({ seed: 9, frames: 3000, rms: 0.1 })], rateHz, bits: 32 } as const;
    const wav = encodeWav(room, 32);
    await page
      .getByLabel("Bring in a sound file: Response")
      .setInputFiles({ name: "room.wav", mimeType: "audio/wav", buffer: Buffer.from(wav) });
    await settled(page);
    await expect.poll(() => page.evaluate(() => window.splitsum!.report?.routings.length)).toBeGreaterThan(1);
    expect(await page.evaluate(() => window.splitsum!.fault)).toBeNull();
    const text = await page.evaluate(() => window.splitsum!.desk.text);
    const report = await page.evaluate(() => window.splitsum!.report!);
    const command = await comparison(text, take, { "room.wav": wav }, 2);
    const widths = ({ routings }: Report) =>
      routings.map(({ id, measures }) => [id, measures?.sideShare, measures?.integratedLufs]);
    expectSameFigures(widths(report), widths(command.report), 6);
    await page
      .getByLabel("Bring in a sound file: Response")
      .setInputFiles({ name: "notes.wav", mimeType: "audio/wav", buffer: Buffer.from("no sound at all") });
    await expect.poll(() => asks.getByRole("alert").textContent()).toMatch(/^notes.wav: is not a sound file/);
    expect(await page.evaluate(() => window.splitsum!.desk.text)).toBe(text);
    const { html } = await page.evaluate(() => window.splitsum!.savedPage());
    const saved = join(folder, "with-room.html");
    writeFileSync(saved, html);
    const { page: again } = await open(saved);
    expect(await again.evaluate(() => window.splitsum!.soundFiles)).toEqual(["room.wav"]);
    expect(complaints).toEqual([]);
  });

  test("the work on a rig outlives a reload, and can be undone after it", async () => {
    const { page } = await open(file);
    await page.waitForFunction(() => window.splitsum?.progress === null);
    await add(page, "boost", "Lift", "mono");
    const before = await page.evaluate(() => window.splitsum!.desk.text);
    await page.reload();
    await page.waitForFunction(() => window.splitsum !== undefined);
    expect(await page.evaluate(() => window.splitsum!.desk.text)).toBe(before);
    await page.locator("#rig").getByRole("button", { name: "Undo: your changes from before" }).click();
    expect(await page.locator("#rig .pedal-row").count()).toBe(0);
    await page.reload();
    await page.waitForFunction(() => window.splitsum !== undefined);
    expect(await page.evaluate(() => window.splitsum!.desk.text)).not.toContain("Lift");
  });

  test("an example comes with its comments, and a fault leaves the last whole rig playing", async () => {
    const { page, complaints } = await open(file);
    await page.waitForFunction(() => window.splitsum?.progress === null);
    await page.getByRole("button", { name: "Mill Loft steel" }).click();
    await settled(page);
    expect(await page.evaluate(() => window.splitsum!.desk.text)).toBe(
      readFileSync("fixtures/rigs/mill-loft.yaml", "utf8"),
    );
    const before = await page.evaluate(() => window.splitsum!.rig.pedals.map(({ name }) => name));
    const name = page.getByRole("textbox", { name: "Carter, name", exact: true });
    await name.fill("ember");
    await name.press("Tab");
    expect(await page.locator("#rig .pedal-row .fault:visible").textContent()).toMatch(/has that name/);
    expect(await page.evaluate(() => window.splitsum!.rig.pedals.map((pedal) => pedal.name))).toEqual(before);
    await page.locator("#rig").getByRole("button", { name: /^Undo/ }).click();
    expect(await page.locator("#rig .pedal-row .fault:visible").count()).toBe(0);
    // Of another file with a fault nothing is shown that belongs to the one before.
    const parts = () => page.locator("nav a:visible").allTextContents();
    await page.evaluate(() =>
      window.splitsum!.desk.open("other.yaml", "name: Other\npedals: [{ name: A }]\n"),
    );
    expect(await parts()).toEqual(["Rig", "Take", "Measure"]);
    await page.locator("#rig").getByRole("button", { name: "Undo: opening other.yaml" }).click();
    await settled(page);
    expect(await parts()).toContain("Answer");
    expect(complaints).toEqual([]);
  });
});
