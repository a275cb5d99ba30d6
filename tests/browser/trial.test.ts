import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import type { TrialResult } from "../../src/page/panels/trial/trial.js";
import { describeInChromium } from "./chromium.js";
import { liveRegionHasSpoken, newCalls, useFacePage } from "./facePage.js";

describeInChromium("the blind trial", (open) => {
  const face = useFacePage();
  const playedIds = (calls: readonly string[]) =>
    calls.filter((call) => call.startsWith("playBlind")).map((call) => call.split(" ")[1]);

  /** Makes chance one-sided before the page runs, so that a test knows what stands behind the names. */
  async function openWithChance(value: number) {
    const opened = await open(face().file);
    await opened.page.evaluate((fixed) => {
      crypto.getRandomValues = (array) => {
        if (array instanceof Uint32Array) array.fill(fixed);
        return array;
      };
    }, value);
    return opened;
  }
  async function setUp(
    page: Page,
    { trials, only }: { trials: number; only?: readonly string[] },
  ): Promise<void> {
    if (only) {
      const boxes = page.locator(".which input");
      for (const box of await boxes.all()) await box.uncheck();
      for (const name of only) await page.locator(".which").getByLabel(name, { exact: true }).check();
    }
    await page.getByLabel("Number of trials").fill(String(trials));
    await page.getByRole("button", { name: "Start the trial" }).click();
  }

  test("a whole trial runs by the keyboard alone", async () => {
    const { page, complaints } = await open(face().file);
    await page.getByLabel("Number of trials").focus();
    await page.keyboard.press("Control+A");
    await page.keyboard.type("5");
    await page.keyboard.press("Tab");
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe("Start the trial");
    await page.keyboard.press("Enter");
    for (let trial = 1; trial <= 5; trial++) {
      expect(await page.locator(".trial-count").textContent()).toBe(`Trial ${trial} of 5`);
      await page.keyboard.press("2");
      await page.keyboard.press("3");
      await tabTo(page, "X is A");
      await page.keyboard.press("Enter");
    }
    await expect.poll(() => page.locator(".verdict").textContent()).toMatch(/^[0-5] of 5 right\./);
    await expect.poll(() => page.evaluate(() => document.activeElement?.textContent)).toBe("Result");
    await tabTo(page, "Save as JSON");
    const download = page.waitForEvent("download");
    await page.keyboard.press("Enter");
    expect((await download).suggestedFilename()).toBe("rig-i-of-i-tests-blind-trial.json");
    expect(complaints).toEqual([]);
  });

  /**
   * Two trials, alike in what is pressed and opposite in what is hidden: everything that the page holds (elements in
   * their order, attributes, values, names for screen readers, title) and the number of changes to it is the same.
   */
  test("nothing in the page tells what is hidden", async () => {
    const seen = [];
    for (const chance of [0, 1]) {
      const { page } = await openWithChance(chance);
      await setUp(page, { trials: 2 });
      await page.evaluate(newCalls);
      const snapshots: string[] = [];
      for (let trial = 0; trial < 2; trial++) {
        for (const key of ["2", "3", "1"]) {
          await page.keyboard.press(key);
          snapshots.push(await everythingOf(page));
        }
        await page.getByRole("button", { name: "X is B" }).click();
        if (trial < 1) snapshots.push(await everythingOf(page));
      }
      seen.push({ snapshots, played: playedIds(await page.evaluate(newCalls)) });
    }
    expect(seen[0].played).not.toEqual(seen[1].played);
    expect(seen[0].snapshots.length).toBe(2 * 3 + 1);
    for (const [n, snapshot] of seen[0].snapshots.entries()) {
      expect(firstDifference(snapshot, seen[1].snapshots[n]), `snapshot ${n}`).toBe("");
    }
    const ids = face().facts.report.routings.flatMap(({ id, label }) => [id, label]);
    for (const snapshot of seen[0].snapshots) {
      for (const word of [...ids, "dB on", "LUFS", "gain"]) expect(snapshot).not.toContain(word);
    }
  });

  test("every switch is the blind one, also onto the same sound, and A is heard first in each trial", async () => {
    const { page } = await openWithChance(0);
    await setUp(page, { trials: 2 });
    await page.keyboard.press("3");
    await page.keyboard.press("3");
    await page.keyboard.press("2");
    await page.getByRole("button", { name: "X is A" }).click();
    const calls = await page.evaluate(newCalls);
    expect(calls.filter((call) => call.startsWith("choose"))).toEqual([]);
    const [first, again, third, other] = playedIds(calls);
    expect(third).toBe(again);
    expect(other).not.toBe(first);
    expect(playedIds(calls)).toHaveLength(5);
  });

  test("an answer waits until every sound was heard", async () => {
    const { page } = await open(face().file);
    await setUp(page, { trials: 2 });
    const answer = page.getByRole("button", { name: "X is A" });
    expect(await answer.isDisabled()).toBe(true);
    await page.keyboard.press("2");
    expect(await answer.isDisabled()).toBe(true);
    expect(await page.locator(".trial-run .hint").textContent()).toBe("Listen to X before you answer.");
    await page.keyboard.press("3");
    expect(await answer.isDisabled()).toBe(false);
  });

  /** 4 of 4 by guessing: 1/16 (closed form). */
  test("the result tells the count, the exact probability and every answer", async () => {
    const { page } = await openWithChance(0);
    const before = await page.evaluate(() => window.fakeBench.player.chosen);
    await setUp(page, { trials: 4 });
    for (let trial = 0; trial < 4; trial++) {
      await page.keyboard.press("2");
      await page.keyboard.press("3");
      const [a, , x] = playedIds(await page.evaluate(newCalls)).slice(-3);
      await page.getByRole("button", { name: a === x ? "X is A" : "X is B" }).click();
    }
    expect(await page.locator(".verdict").textContent()).toContain(
      "4 of 4 right. Guessing alone gets as many or more in 6.3\u00a0% of such trials.",
    );
    expect(await page.evaluate(() => window.fakeBench.player.chosen)).toBe(before);
    const download = page.waitForEvent("download");
    await page.getByRole("button", { name: "Save as JSON" }).click();
    const result: TrialResult = JSON.parse(readFileSync(await (await download).path(), "utf8"));
    expect(result.tellApart).toEqual({ correct: 4, trials: 4, probability: 1 / 16 });
    expect(result.answers.every(({ correct }) => correct)).toBe(true);
    const csv = page.waitForEvent("download");
    await page.getByRole("button", { name: "Save as CSV" }).click();
    expect(
      readFileSync(await (await csv).path(), "utf8")
        .trim()
        .split("\r\n"),
    ).toHaveLength(5);
    await page.getByText("Every answer").click();
    expect(await page.locator(".trial-result tbody tr").count()).toBe(4);
  });

  test("preferences of three are asked in pairs, and told with their intervals", async () => {
    const { page } = await open(face().file);
    await page.getByLabel("Which do you prefer?").check();
    await setUp(page, { trials: 6, only: ["Delay first", "Summed into the delay", "Dry take"] });
    expect(await page.locator(".trial-run").getByRole("radio", { name: "X" }).count()).toBe(0);
    for (let trial = 0; trial < 6; trial++) {
      await page.keyboard.press("2");
      await page.getByRole("button", { name: "I prefer A" }).click();
    }
    const rows = page.locator(".trial-result tbody tr");
    expect(await rows.count()).toBe(3 + 6);
    expect(await rows.first().textContent()).toMatch(/[0-2] of 2/);
    expect(await page.locator(".trial-result").textContent()).toContain("Clopper and Pearson");
  });

  test("a trial that is stopped gives no result, and the page comes back", async () => {
    const { page } = await open(face().file);
    await setUp(page, { trials: 3 });
    expect(await page.locator(".hear, .see, .turn, .build, .head:visible").count()).toBe(0);
    await page.getByRole("button", { name: "Stop the trial" }).click();
    expect(await page.locator(".verdict").count()).toBe(0);
    expect(await page.locator(".hear, .see, .turn, .build").count()).toBe(4);
    expect(await page.locator("input[name=routing]:checked").getAttribute("value")).toBe("series-mono");
  });

  test("a trial that cannot be is refused in words", async () => {
    const { page } = await open(face().file);
    await setUp(page, { trials: 0 });
    expect(await page.locator(".trial .fault").textContent()).toBe(
      "The number of trials is a whole number from 1 to 200.",
    );
    await setUp(page, { trials: 5, only: ["Dry take"] });
    expect(await page.locator(".trial .fault").textContent()).toBe("Choose two routings or more.");
    expect(playedIds(await page.evaluate(newCalls))).toEqual([]);
  });

  test("what it borrows, what it is not and what the number says stand in the page", async () => {
    const { page } = await open(face().file);
    const words = (await page.locator(".trial").textContent()) ?? "";
    expect(words).toContain("ITU-R BS.1116 and BS.1534");
    expect(words).toContain("It is not a test to those documents");
    /** References: 10 of 12 by guessing 0.0193, 9 of 12 0.073 (sums of binomial coefficients, closed form). */
    expect(words).toContain("10 of 12 right or more come about by guessing in 1.9\u00a0% of trials.");
  });
});

/** Where two texts part, with what stands around it; empty when they do not. */
function firstDifference(a: string, b: string): string {
  let at = 0;
  while (at < a.length && a[at] === b[at]) at++;
  return a === b ? "" : `${a.slice(at - 80, at + 40)} <> ${b.slice(at - 80, at + 40)}`;
}

async function tabTo(page: Page, words: string): Promise<void> {
  for (let presses = 0; presses < 40; presses++) {
    await page.keyboard.press("Tab");
    if ((await page.evaluate(() => document.activeElement?.textContent)) === words) return;
  }
  throw new Error(`"${words}" is not reached by Tab`);
}

/** The whole document but for its data, with live values, as one text; and what a screen reader is given. */
async function everythingOf(page: Page): Promise<string> {
  await page.evaluate(liveRegionHasSpoken);
  const held = await page.evaluate(() => {
    const root = document.getElementById("root");
    const values = [...document.querySelectorAll("input, select, output")].map((node) =>
      node instanceof HTMLInputElement ? `${node.value} ${node.checked} ${node.disabled}` : node.textContent,
    );
    return [document.title, location.href, root?.outerHTML, ...values].join("\n");
  });
  const style = /<style>[\s\S]*?<\/style>/;
  return `${held.replace(style, "")}\n${await page.locator("body").ariaSnapshot()}`;
}
