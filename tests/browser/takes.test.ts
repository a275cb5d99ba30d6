import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { prepareCompare } from "../../src/cli/prepareCompare.js";
import { readClip } from "../../src/node/audio/readClip.js";
import { compareTakes } from "../../src/node/compare/compareTakes.js";
import { encodeWav } from "../../src/sound/audio/encodeWav.js";
import type { Report } from "../../src/work/compare/report.js";
import { noise } from "../signals.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { describeInChromium } from "./chromium.js";
import { expectSameFigures } from "./comparison.js";
import { rigYaml } from "./rig.js";

const rateHz = 48_000;

describeInChromium("a page with several takes", (open) => {
  test("each is chosen in the page, and gives the figures of its own report", async () => {
    const folder = temporaryFolder();
    const files = [1, 2].map((seed) => {
      const file = join(folder, `take-${seed}.wav`);
      const channels = [
        noise({ seed, frames: rateHz / 2, rms: 0.1 }).map((x) => Math.round(x * 2 ** 23) / 2 ** 23),
      ];
      writeFileSync(file, encodeWav({ rateHz, channels }, 24));
      return file;
    });
    const rigFile = join(folder, "rig.yaml");
    writeFileSync(rigFile, rigYaml);
    const routings = ["series-mono", "parallel"];
    const words = { out: join(folder, "out"), tail: 20, bits: 24, match: true, routings } as const;
    const { moreTakes, ...job } = await prepareCompare(rigFile, files, words);
    await compareTakes({ ...job, takes: [job.take, ...moreTakes], threads: 0 });
    const written = (name: string): Report =>
      JSON.parse(readFileSync(join(folder, "out", name, "report.json"), "utf8"));
    const figures = ({ routings: all, frames }: Report) => ({
      frames,
      routings: all.map(({ id, measures, matchGainDb }) => ({ id, measures, matchGainDb })),
    });

    const { page, complaints } = await open(join(folder, "out", "report.html"));
    const settled = () => page.waitForFunction(() => window.splitsum?.progress === null);
    const shown = async () => figures(await page.evaluate(() => window.splitsum!.report!));
    await settled();
    expectSameFigures(await shown(), figures(written("take-1")), 9);
    // The player's view: the answer over all takes, heard first, and the take to hear it on.
    const { plan } = JSON.parse(readFileSync(join(folder, "out", "takes.json"), "utf8")).answer;
    expect(await page.locator(".answer .lead:visible").allTextContents()).toEqual([
      expect.stringContaining(`(${plan.id}): Weir and tank, heard on take-1.wav and take-2.wav.`),
    ]);
    expect(await page.locator(".short-choices li:has-text('the answer') .name").textContent()).toBe(
      plan.label,
    );
    expect(await page.evaluate(() => window.splitsum!.player.chosen)).toBe(plan.id);
    await page.getByRole("combobox", { name: "Take" }).selectOption("take-2.wav");
    await page.waitForFunction(() => window.splitsum?.takeName === "take-2.wav");
    await page.getByRole("link", { name: "Everything" }).first().click();
    await settled();
    expectSameFigures(await shown(), figures(written("take-2")), 9);
    expect(await page.locator("body").textContent()).toContain("heard on take-1.wav and take-2.wav");

    // A reel of all choices, as the command line makes one: the dry take and two routings over the whole of the take.
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Save a reel of all choices" }).click(),
    ]);
    const reel = join(folder, "reel.wav");
    await download.saveAs(reel);
    const { channels: sides, rateHz: hz } = await readClip(reel, { allowTruncated: false });
    const { frames } = written("take-2");
    expect(hz).toBe(rateHz);
    expect(sides.map(({ length }) => length)).toEqual(Array(2).fill(3 * frames + 2 * 0.8 * rateHz));
    const [own] = (await readClip(join(folder, "out", "take-2", "parallel.wav"), { allowTruncated: false }))
      .channels;
    const start = 2 * (frames + 0.8 * rateHz);
    for (const n of [1000, 5000, 20_000])
      expect(Math.abs(sides[0][start + n] - own[n])).toBeLessThan(2 ** -22);
    expect(complaints).toEqual([]);
  });
});
