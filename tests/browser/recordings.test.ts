import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { beforeAll, expect, test } from "vitest";
import { encodeWav } from "../../src/sound/audio/encodeWav.js";
import { noise, sine } from "../signals.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { axeFindings } from "./axe.js";
import { describeInChromium } from "./chromium.js";
import { type Comparison, comparisonOf, readBytes, samplesOf24BitWav } from "./comparison.js";
import { rigYaml } from "./rig.js";

const rateHz = 48_000;
const frames = 3 * rateHz;
const hiss = noise({ seed: 4, frames, rms: 0.1 });
/** Three notes with noise in them that die away: enough to be found again in a recording. */
const take = sine({ frequencyHz: 220, peakDbfs: -14, lengthSeconds: 3, rateHz }).map(
  (x, n) => (x + hiss[n]) * Math.exp((-(n % rateHz) * 5) / rateHz),
);

describeInChromium("recordings of the real rig in the page", (open) => {
  const folder = temporaryFolder();
  let made: Comparison;
  beforeAll(async () => {
    const rigFile = join(folder, "rig.yaml");
    writeFileSync(rigFile, rigYaml.replace("playsInto", "take: take.wav\nplaysInto"));
    writeFileSync(join(folder, "take.wav"), encodeWav({ rateHz, channels: [take] }, 24));
    // What came back: late by 700 frames, the right side softer.
    const left = new Float32Array(frames + 700);
    left.set(
      take.map((x) => 0.5 * x),
      700,
    );
    const real = join(folder, "real.wav");
    writeFileSync(real, encodeWav({ rateHz, channels: [left, left.map((x) => 0.7 * x)] }, 24));
    made = await comparisonOf(rigFile, ["series-mono", "parallel"], [{ name: "Real rig", file: real }]);
  });
  const settled = (page: Page) => page.waitForFunction(() => window.splitsum?.progress === null);

  test("they are heard as the command wrote them, at its level, and can be tried blind", async () => {
    const { page, complaints } = await open(made.bench);
    await settled(page);
    expect(await page.evaluate(() => window.splitsum!.player.choices)).toEqual([
      "series-mono",
      "parallel",
      "real-rig",
      "dry",
    ]);
    await page.getByRole("radio", { name: /Real rig/ }).check();
    await page.getByText("Keep this to compare").click();
    expect(await page.getByRole("button", { name: "Keep", exact: true }).isDisabled()).toBe(true);
    const bytes = await page.evaluate(async () => [
      ...new Uint8Array(await window.splitsum!.routingWav("real-rig").arrayBuffer()),
    ]);
    const heard = samplesOf24BitWav(Uint8Array.from(bytes));
    const written = samplesOf24BitWav(readBytes(made.file("real-rig.wav")));
    expect(heard.map(({ length }) => length)).toEqual(written.map(({ length }) => length));
    // Two roundings to 24 bits, and the gain in single precision.
    const off = written.map((side, n) =>
      side.reduce((most, x, at) => Math.max(most, Math.abs(x - heard[n][at])), 0),
    );
    expect(Math.max(...off)).toBeLessThan(4 * 2 ** -23);
    const { matchGainDb } = made.report.routings.find(({ id }) => id === "real-rig")!;
    expect(await page.evaluate(() => window.splitsum!.player.gainDb("real-rig"))).toBeCloseTo(
      matchGainDb!,
      3,
    );
    await page.getByRole("group", { name: "Between which" }).getByLabel("Real rig").check();
    await page.getByRole("button", { name: "Start the trial" }).click();
    await expect.poll(() => page.getByText("Trial 1 of 12").count()).toBe(1);
    expect(complaints).toEqual([]);
  });

  test("one that had no room in the page is told by name", async () => {
    const html = readFileSync(made.page, "utf8");
    const without = join(folder, "without.html");
    writeFileSync(without, html.replace(/"recordings":\[\{[^\]]*\]/, '"recordings":[]'));
    const { page } = await open(`${without}#everything`);
    await settled(page);
    expect(await page.evaluate(() => window.splitsum!.player.choices)).toEqual([
      "series-mono",
      "parallel",
      "dry",
    ]);
    expect(await page.locator(".chooser").textContent()).toContain(
      "Not to be heard here, as too long to travel in a page: Real rig.",
    );
  });

  test("beside another take they are gone, and come back with theirs", async () => {
    const { page } = await open(made.bench);
    await settled(page);
    const row = page.getByRole("radio", { name: /Real rig/ });
    await row.check();
    const other = Buffer.from(encodeWav({ rateHz, channels: [take.map((x) => 0.9 * x)] }, 24));
    await page
      .getByLabel("Choose a recording")
      .setInputFiles({ name: "other.wav", mimeType: "audio/wav", buffer: other });
    await expect.poll(() => page.evaluate(() => window.splitsum!.player.choices.length)).toBe(3);
    await settled(page);
    expect(await row.count()).toBe(0);
    expect(
      await page.getByRole("combobox", { name: "Heard now", includeHidden: true }).locator("option").count(),
    ).toBe(3);
    expect(await axeFindings(page, "#hear")).toEqual([]);
    await page.evaluate(() => window.splitsum!.chooseTake(0));
    await settled(page);
    expect(await row.count()).toBe(1);
  });
});
