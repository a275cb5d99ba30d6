import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { choiceWords } from "../../src/words/choiceWords.js";
import { axeFindings } from "./axe.js";
import { describeInChromium } from "./chromium.js";
import { newCalls, useFacePage } from "./facePage.js";

describeInChromium("the player's view", (open) => {
  const face = useFacePage();
  const short = () => `${face().file}#short`;
  const sections = (page: Page) => page.locator("main section:visible > h2").allTextContents();
  const inShort = [
    "The question",
    "Which to build",
    "Hear the wirings",
    "Try it blind",
    "Which do you like?",
  ];
  const text = (page: Page) => page.getByLabel("The text to send back").inputValue();

  test("question, answer and choices with what each costs; no knob, plot, table or sheet is drawn", async () => {
    const { page, complaints } = await open(short(), { viewport: { width: 800, height: 900 } });
    const { report } = face().facts;
    const { plan, next } = report.answer;
    expect((await sections(page)).sort()).toEqual([...inShort].sort());
    const rows = page.locator(".short-choices > ul > li");
    const ids = [plan!.id, next!.id, "series-mono", "stereo-unit"];
    const nameOf = (id: string) => report.routings.find((routing) => routing.id === id)?.label;
    expect(await rows.locator(".name").allTextContents()).toEqual(ids.map(nameOf));
    expect(await rows.locator(".rank").allTextContents()).toEqual([
      "the answer",
      "next best",
      "",
      "the measure of width",
    ]);
    const costs = (await rows.locator(".costs").allTextContents()).map((line) =>
      line.replaceAll("\u00a0", " "),
    );
    expect(costs).toEqual(ids.map((id) => choiceWords(report, id)));
    await page.getByText("5 more to hear").click();
    expect(await page.locator(".short-choices button:visible").count()).toBe(9);
    expect(await page.locator(".card, figure, table, .sheet").count()).toBe(0);
    expect(complaints).toEqual([]);
  });

  test("each choice is played by its own button, and paused by it", async () => {
    const { page } = await open(short(), { viewport: { width: 360, height: 740 } });
    await page.getByRole("button", { name: "Play All in mono" }).click();
    await page.getByRole("button", { name: "Play Stereo delay instead" }).click();
    expect(await page.locator(".short-choices [aria-current] .name").allTextContents()).toEqual([
      "Stereo delay instead",
    ]);
    await page.getByRole("button", { name: "Pause Stereo delay instead" }).click();
    // The fake bench begins with the first choice.
    expect(await page.evaluate(newCalls)).toEqual(["play", "choose stereo-unit", "pause"]);
    await page.emulateMedia({ forcedColors: "active" });
    const heard = page.locator(".short-choices [aria-current]");
    expect(await heard.evaluate((node) => getComputedStyle(node).outlineStyle)).toBe("solid");
    // The bar is there wherever the page is scrolled to.
    for (const part of ["h1", "#question", "#reply"]) {
      await page.locator(part).evaluate((node) => node.scrollIntoView({ behavior: "instant" }));
      const box = await page.locator(".player-bar .play").boundingBox();
      expect(box!.y + box!.height).toBeLessThanOrEqual(740);
      expect(box!.y).toBeGreaterThan(600);
    }
  });

  test("the reply names the rig, what was heard and how, the pick, a blind trial and the date; it is copied, shared, mailed", async () => {
    const { page } = await open(short());
    await page.evaluate(() => {
      const sent: Record<string, unknown> = {};
      Object.assign(window, { sent });
      Object.defineProperty(navigator, "clipboard", {
        value: { writeText: async (words: string) => Object.assign(sent, { copied: words }) },
      });
    });
    expect(await page.getByRole("button", { name: "Share" }).isVisible()).toBe(false);
    expect(await text(page)).toContain("I like: nothing chosen yet\n\nHeard: nothing yet.");
    await page.keyboard.press("4");
    await page.keyboard.press("Space");
    await page.keyboard.press("1");
    await page.getByLabel("I like").selectOption("Delay beside, from a split");
    await page.getByLabel("A remark").fill("More air.");
    const today = new Intl.DateTimeFormat("en-GB", { dateStyle: "long" }).format(new Date());
    expect(await text(page)).toBe(
      [
        "Rig <i>of</i> tests: which wiring I like",
        "",
        "I like: Delay beside, from a split (parallel)",
        "Remark: More air.",
        "",
        "Heard on take.wav, matched in loudness: Delay beside, from a split; All in mono.",
        `${today}\n`,
      ].join("\n"),
    );
    await page.getByLabel("I like").selectOption("Delay first");
    expect(await text(page)).toContain("(unit-first), though it was not played here");

    const pair = page.locator("#blind .pair select");
    const names = await pair.evaluateAll((all) =>
      all.map((one) => (one as HTMLSelectElement).selectedOptions[0].text),
    );
    await page.getByRole("button", { name: "Start: 10 rounds" }).click();
    expect(await page.locator(".hear, .reply, .head:visible").count()).toBe(0);
    for (let round = 0; round < 10; round++) {
      await page.keyboard.press("2");
      await page.getByRole("button", { name: "I prefer A" }).click();
    }
    await expect.poll(() => page.evaluate(() => document.activeElement?.textContent)).toBe("Result");
    const result = await page.locator("#blind .verdict").textContent();
    for (const name of names) expect(result).toContain(name);
    expect(result).toMatch(/\d+ of 10 times.*on take\.wav, matched in loudness\. Chance alone/);
    expect(await text(page)).toContain(`Blind trial: ${result}`);

    await page.getByRole("button", { name: "Copy the text" }).click();
    expect(await page.evaluate("sent.copied")).toBe(await text(page));
    expect(await page.locator("#reply .hint").textContent()).toBe("Copied: paste it into your reply.");
    const mail = new URL((await page.getByRole("link", { name: "Write a mail" }).getAttribute("href"))!);
    expect([mail.protocol, mail.pathname]).toEqual(["mailto:", ""]);
    expect(mail.searchParams.get("body")).toBe((await text(page)).replaceAll("\n", "\r\n"));
  });

  test("where a browser shares it is offered, and where it does not copy the text is marked", async () => {
    const script = `Object.defineProperty(navigator, "share", { value: async (what) => void (window.shared = what) });
      Object.defineProperty(navigator, "clipboard", { value: undefined });
      document.execCommand = () => false;`;
    const { page } = await open(short(), {}, script);
    await page.getByRole("button", { name: "Share" }).click();
    expect(await page.evaluate("shared.text")).toBe(await text(page));
    await page.getByRole("button", { name: "Copy the text" }).click();
    await expect.poll(() => page.locator("#reply .hint").textContent()).toMatch(/does not copy.*is marked/);
    expect(await page.evaluate(() => String(getSelection()))).toBe(await text(page));
  });

  test("the bench is one tap further and remembered, the way back leads back, and an anchor to its part", async () => {
    const { page } = await open(face().file);
    const rig = page.getByRole("heading", { name: "The rig", exact: true });
    await page.getByRole("link", { name: "The player\u2019s view" }).click();
    await expect.poll(async () => (await sections(page)).sort()).toEqual([...inShort].sort());
    await page.goto(`file://${face().file}`);
    await page.reload();
    expect(await rig.isVisible()).toBe(false);
    await page.getByRole("link", { name: "Everything" }).last().click();
    await rig.waitFor();
    expect(await page.evaluate(() => [scrollY, document.activeElement?.textContent])).toEqual([
      0,
      "The player\u2019s view",
    ]);
    await page.goBack();
    await expect.poll(() => rig.isVisible()).toBe(false);
    await page.evaluate(() => location.assign("#see"));
    await expect
      .poll(() => page.locator("#see").evaluate((node) => Math.abs(node.getBoundingClientRect().top)))
      .toBeLessThan(40);
    await page.goto("about:blank");
    await page.goto(`file://${face().file}#build`);
    expect(await page.locator(".sheet:visible").count()).toBe(1);
  });

  test("by the keyboard alone: play, next choice, pick, copy; each thing shows its focus", async () => {
    const { page } = await open(short());
    const unseen: string[] = [];
    const tabTo = async (words: RegExp) => {
      for (let press = 0; press < 60; press++) {
        await page.keyboard.press("Tab");
        const { name, outline } = await page.evaluate(() => {
          const node = document.activeElement as HTMLElement;
          const { outlineStyle, outlineWidth } = getComputedStyle(node);
          const label = node.id ? document.querySelector(`label[for=${node.id}]`)?.textContent : "";
          return { name: label || node.textContent || "", outline: `${outlineStyle} ${outlineWidth}` };
        });
        if (!/^(solid|auto) [1-9]/.test(outline)) unseen.push(`${name}: ${outline}`);
        if (words.test(name)) return;
      }
      throw new Error(`${words} is not reached by Tab`);
    };
    await tabTo(/^Play All in mono/);
    await page.keyboard.press("Space");
    await tabTo(/^Play Stereo delay/);
    await page.keyboard.press("Enter");
    await tabTo(/^I like/);
    await page.keyboard.type("Stereo");
    await tabTo(/^Copy the text/);
    expect(await page.evaluate(newCalls)).toEqual(expect.arrayContaining(["play", "choose stereo-unit"]));
    expect(await text(page)).toMatch(
      /I like: Stereo delay instead \(stereo-unit\)\n\nHeard.*All in mono; Stereo delay instead\./,
    );
    expect(unseen).toEqual([]);
  });

  test("nothing runs out from 320 to 1600 px, and axe finds nothing", async () => {
    const { page } = await open(short(), { viewport: { width: 320, height: 768 } });
    await page.getByText("5 more to hear").click();
    await page.getByText("Why, what to buy").click();
    for (const width of [320, 360, 800, 1600, 1366]) {
      await page.setViewportSize({ width, height: 768 });
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
      if (width === 320 || width === 1366) expect(await axeFindings(page)).toEqual([]);
    }
    // Beside the rest the player stays at the top of its column, however far the choices are scrolled.
    const column = page.locator(".hear");
    await column.evaluate((node) => node.scrollTo({ top: node.scrollHeight, behavior: "instant" }));
    expect(await column.evaluate((node) => node.scrollTop)).toBeGreaterThan(100);
    const { y } = (await page.locator(".player-bar .play").boundingBox())!;
    const { y: top } = (await column.boundingBox())!;
    expect([y >= top, y < top + 20]).toEqual([true, true]);
  });

  test("printed, it is what was read: question, answer, choices and the text", async () => {
    const { page } = await open(short());
    await page.emulateMedia({ media: "print" });
    expect(await sections(page)).toEqual(expect.arrayContaining(["The question", "Which do you like?"]));
    expect(await page.locator("button:visible, input:visible, select:visible, main a:visible").count()).toBe(
      0,
    );
    expect(await page.locator(".short-choices .costs:visible").count()).toBe(4);
  });
});
