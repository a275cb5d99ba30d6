import { writeFileSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { benchPage } from "../../src/node/page/benchPage.js";
import { encodeWav } from "../../src/sound/audio/encodeWav.js";
import type { Report } from "../../src/work/compare/report.js";
import { noise } from "../signals.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { tabTo } from "./byKeyboard.js";
import { describeInChromium } from "./chromium.js";
import { comparison, expectSameFigures } from "./comparison.js";

const rateHz = 16_000;
const take = { channels: [noise({ seed: 8, frames: rateHz, rms: 0.1 })], rateHz, bits: 24 } as const;

describeInChromium("the whole job", (open) => {
  test("by keyboard alone: from an empty board to a page to mail, and in that page to a reply", async () => {
    const folder = temporaryFolder();
    const takeFile = join(folder, "take.wav");
    writeFileSync(takeFile, encodeWav(take, 24));
    const source = { rigFile: null, takeFiles: [takeFile], examples: [], tailSeconds: 2 };
    const bench = join(folder, "bench.html");
    writeFileSync(bench, (await benchPage(source)).html);

    const { page, complaints } = await open(bench);
    const { keyboard } = page;
    const write = async (words: string) => {
      await keyboard.press("Control+a");
      await keyboard.type(words);
    };
    const add = async (kind: string, jacks: number, name: string) => {
      await tabTo(page, "Add a pedal at the end");
      await keyboard.type(kind);
      await tabTo(page, "Jacks");
      await keyboard.press("Home");
      for (let n = 0; n < jacks; n++) await keyboard.press("ArrowDown");
      await tabTo(page, "Add");
      await keyboard.press("Enter");
      await write(name);
    };
    await tabTo(page, "The rig, name of the rig");
    await write("By hand");
    await add("Chorus", 1, "Weir");
    await add("Delay", 0, "Echo");
    await tabTo(page, "What the player asks");
    await keyboard.press("Enter");
    await tabTo(page, "The player asks, stereo");
    await keyboard.type("must");
    await tabTo(page, "The player asks, no second unit");
    await keyboard.press("Space");
    await settled(page);
    const yaml = await saved(page, "Save the rig file", "Shift+Tab");
    const html = await saved(page, "Save this page", "Tab");
    expect(yaml.toString()).toContain("name: By hand");
    expect(complaints).toEqual([]);

    const command = (await comparison(yaml.toString(), take, {}, 2)).report;
    const { plan } = command.answer;
    expect(plan?.asks.map(({ ask, keeps }) => [ask, keeps])).toEqual([
      ["stereo", true],
      ["oneOfEach", true],
    ]);
    const mailed = join(folder, "mailed.html");
    writeFileSync(mailed, html);
    const { page: player } = await open(mailed);
    await settled(player);
    const report = await player.evaluate(() => window.splitsum!.report!);
    expectSameFigures(figuresOf(report), figuresOf(command), 9);
    expect(await player.locator(".answer .lead:visible").textContent()).toContain(`(${plan!.id}): By hand`);
    await tabTo(player, `Play ${plan!.label}`);
    await player.keyboard.press("Enter");
    expect(await player.evaluate(() => window.splitsum!.player.playing)).toBe(true);
    await tabTo(player, "I like");
    await player.keyboard.type(plan!.label);
    await tabTo(player, "A remark");
    await player.keyboard.type("As I hoped.");
    const heard = `Heard on take.wav, matched in loudness: ${plan!.label}.`;
    expect(await player.getByLabel("The text to send back").inputValue()).toContain(
      `I like: ${plan!.label} (${plan!.id})\nRemark: As I hoped.\n\n${heard}`,
    );
  });
});

const settled = (page: Page) =>
  page.waitForFunction(() => window.splitsum?.progress === null && window.splitsum.report !== null);

/** What a button of the page gives, pressed by key. */
async function saved(page: Page, button: string, key: string): Promise<Buffer> {
  await tabTo(page, button, key);
  const [download] = await Promise.all([page.waitForEvent("download"), page.keyboard.press("Enter")]);
  return readFile(await download.path());
}

const figuresOf = ({ frames, routings, answer }: Report) => ({
  frames,
  plan: answer.plan,
  routings: routings.map(({ id, possible, measures, matchGainDb }) => ({
    id,
    possible,
    measures,
    matchGainDb,
  })),
});
