import { writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { beforeAll, beforeEach, expect, test } from "vitest";
import { benchPage } from "../../src/node/page/benchPage.js";
import { encodeWav } from "../../src/sound/audio/encodeWav.js";
import type { Report } from "../../src/work/compare/report.js";
import { noise } from "../signals.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { axeFindings } from "./axe.js";
import { describeInChromium } from "./chromium.js";
import { comparison, expectSameFigures } from "./comparison.js";

const rateHz = 16_000;
const take = { channels: [noise({ seed: 8, frames: rateHz, rms: 0.1 })], rateHz, bits: 24 } as const;
const rigText = `name: Drawn
pedals:
  - { name: Weir, model: tremolo, jacks: mono-to-stereo } # swings
  - { name: Echo, model: delay, jacks: mono, settings: { delayMs: 90 } }
`;

describeInChromium("a wiring drawn by hand", (open) => {
  const folder = temporaryFolder();
  let page: Page;
  let complaints: string[];
  beforeAll(async () => {
    const [rigFile, takeFile] = [join(folder, "rig.yaml"), join(folder, "take.wav")];
    writeFileSync(rigFile, rigText);
    writeFileSync(takeFile, encodeWav(take, 24));
    const { html } = await benchPage({ rigFile, takeFiles: [takeFile], examples: [], tailSeconds: 2 });
    const file = join(folder, "bench.html");
    writeFileSync(file, html);
    ({ page, complaints } = await open(file, { viewport: { width: 1366, height: 900 } }));
    // Still, so that nothing is on its way where a pointer goes.
    await page.emulateMedia({ reducedMotion: "reduce" });
    await settled();
  });
  // One page for all: each test begins with the rig that it came with.
  beforeEach(async () => {
    await page.evaluate((text) => window.splitsum!.desk.open("rig.yaml", text), rigText);
    await settled();
  });

  const settled = () =>
    page.waitForFunction(() => window.splitsum?.progress === null && window.splitsum.report !== null);
  const draw = () => page.locator("#draw");
  const begin = async (label: string) => {
    await draw().getByLabel("Begin with").selectOption({ label });
    await draw().getByRole("button", { name: "Draw by hand" }).click();
  };
  const addBox = async (label: string) => {
    await draw().getByLabel("One more box").selectOption({ label });
    await draw().getByRole("button", { name: "Add", exact: true }).click();
  };
  const jack = (name: string) => draw().getByRole("button", { name: new RegExp(`^${name}: `) });
  const cables = () =>
    page.evaluate(() => {
      const { wirings = {} } = window.splitsum!.desk.data as {
        wirings?: Record<string, { cables: string[] }>;
      };
      return wirings["by-hand-1"]?.cables ?? [];
    });
  const faults = () => page.evaluate(() => window.splitsum!.desk.faults.map(({ message }) => message));
  const focused = () => page.evaluate(() => document.activeElement?.getAttribute("aria-label"));

  test("by pointer, from an empty board: heard as soon as it is whole, and the file gives the same figures", async () => {
    await begin("an empty board");
    expect(await faults()).toEqual([
      'no sound reaches "destination", what the rig plays into; cable a way to it from "take", the instrument.',
    ]);
    await addBox("a splitter");
    await addBox("Weir");
    await addBox("Echo");
    await draw().getByLabel("Echo, fully wet").check();
    await addBox("a mixer");
    await draw().getByLabel("mixer, in 3, level").fill("-6");
    await draw().getByLabel("mixer, in 3, level").press("Tab");
    // Tap and tap, either end first.
    await jack("Instrument, out").click();
    expect(await draw().locator(".picked .hint").textContent()).toBe(
      "Picked: Instrument, out: free output. Now the input that its cable goes to.",
    );
    await jack("splitter, in").click();
    await jack("Weir, in").click();
    await jack("splitter, out 1").click();
    // Drawn from jack to jack, by mouse and by finger.
    await drag(page, "mouse", jack("splitter, out 2"), jack("Echo, in"));
    await drag(page, "touch", jack("Echo, out"), jack("mixer, in 3"));
    await drag(page, "mouse", jack("mixer, in 1"), jack("Weir, out left"));
    await drag(page, "mouse", jack("Weir, out right"), jack("mixer, in 2"));
    expect(await faults()).toEqual([
      'no sound reaches "destination", what the rig plays into; cable a way to it from "take", the instrument.',
      'what leaves "mixer" goes nowhere; cable it on or take it out.',
    ]);
    await drag(page, "mouse", jack("mixer, out left"), jack("Stereo desk, in left"));
    await drag(page, "mouse", jack("mixer, out right"), jack("Stereo desk, in right"));
    expect(await cables()).toEqual([
      "take:out > splitter:in",
      "splitter:out 1 > weir:in",
      "splitter:out 2 > echo:in",
      "echo:out > mixer:in 3",
      "weir:out left > mixer:in 1",
      "weir:out right > mixer:in 2",
      "mixer:out left > destination:in left",
      "mixer:out right > destination:in right",
    ]);
    expect(await faults()).toEqual([]);
    await settled();
    await expect.poll(() => page.evaluate(() => window.splitsum!.player.chosen)).toBe("by-hand-1");
    expect(await page.locator(".sheet:visible svg.wiring .name").allTextContents()).toContain("Echo");
    const text = await page.evaluate(() => window.splitsum!.desk.text);
    const report = await page.evaluate(() => window.splitsum!.report!);
    const command = await comparison(text, take, {}, 2);
    const figures = ({ routings }: Report) =>
      routings.map(({ id, label, measures, matchGainDb }) => ({ id, label, measures, matchGainDb }));
    expect(command.report.routings.at(-1)).toMatchObject({
      id: "by-hand-1",
      label: "By hand",
      possible: true,
    });
    expectSameFigures(figures(report), figures(command.report), 9);
    expect(text).toContain("# swings");
    expect(complaints).toEqual([]);
  });

  test("by keyboard alone: a copy is changed at its jacks and in its list, and undone", async () => {
    const { keyboard } = page;
    const tabTo = async (name: string, key = "Tab") => {
      for (let n = 0; n < 120; n++) {
        await keyboard.press(key);
        if ((await page.evaluate(nameOfFocused)).startsWith(name)) return;
      }
      throw new Error(`${name} is not reached by ${key}`);
    };
    await draw().getByLabel("Begin with").focus();
    await keyboard.type("Delay beside, from");
    await tabTo("Draw by hand");
    await keyboard.press("Enter");
    expect(await focused()).toBe("This wiring, name");
    const whole = await cables();
    expect(whole).toHaveLength(8);
    await tabTo("Echo, out: to mixer, in 3");
    await keyboard.press("Delete");
    expect(await focused()).toBe("Echo, out: free output");
    expect(await faults()).toEqual(['what leaves "echo" goes nowhere; cable it on or take it out.']);
    // Into an input that is taken: said at the cable, in the words of the file.
    await keyboard.press("Enter");
    await tabTo("mixer, in 2");
    await keyboard.press("Enter");
    const tied =
      '"mixer:in 2" already takes "weir:out right"; two outputs are never tied together. Use a summing box or a mixer.';
    expect(await faults()).toEqual([tied]);
    const last = draw().locator(".cable-rows li").last();
    expect(await last.locator(".fault").textContent()).toBe(tied);
    expect(await draw().locator(".wiring .cable.wrong").count()).toBe(1);
    await tabTo("Cable 8, to");
    await keyboard.type("mixer, in 3");
    expect(await faults()).toEqual([]);
    expect([...(await cables())].sort()).toEqual([...whole].sort());
    // A cable goes and comes by the lists alone.
    await tabTo("Pull cable 8");
    await keyboard.press("Enter");
    expect(await focused()).toBe("Cable 7, from");
    await tabTo("From");
    await tabTo("Add this cable");
    await keyboard.press("Enter");
    expect([...(await cables())].sort()).toEqual([...whole].sort());
    // A loop, and Escape.
    await tabTo("Echo, out: ", "Shift+Tab");
    await keyboard.press("Enter");
    await keyboard.press("Escape");
    expect(await draw().locator("[aria-pressed=true]").count()).toBe(0);
    await tabTo("Undo: ", "Shift+Tab");
    for (let n = 0; n < 6 && (await cables()).length > 0; n++) await keyboard.press("Enter");
    expect(await page.evaluate(() => window.splitsum!.desk.text)).toBe(rigText);
    expect(await draw().locator(".drawing").isVisible()).toBe(false);
  });

  test("the fault list of the rig leads to the drawing, a box goes with its cables, and a sheet is drawn on", async () => {
    await page.locator("#build").getByLabel("Sheet", { exact: true }).selectOption("parallel");
    await page.getByRole("button", { name: "Draw on by hand" }).click();
    await settled();
    expect(await draw().getByLabel("This wiring, name").inputValue()).toBe(
      "Delay beside, from a split, by hand",
    );
    await draw().getByRole("button", { name: "Take out: mixer" }).click();
    expect(await cables()).toHaveLength(3);
    await page
      .locator(".rig-faults")
      .getByRole("button", { name: /what leaves "echo" goes nowhere/ })
      .click();
    expect(await focused()).toBe("Echo, fully wet");
    await page
      .getByRole("button", { name: /^Undo: taking mixer out/ })
      .first()
      .click();
    expect(await cables()).toHaveLength(8);
    expect(await draw().locator(".draw-cautions li").allTextContents()).toEqual([]);
    // One side that goes nowhere can be built: it is told, in the words of the sheet.
    await draw().getByRole("button", { name: "Pull cable 8" }).click();
    expect(await draw().locator(".draw-cautions li").allTextContents()).toEqual([
      "mixer: out right goes nowhere; that side is not heard.",
    ]);
    // Whatever was heard before, what is changed on the drawing is heard now.
    const heard = () => page.evaluate(() => window.splitsum!.player.chosen);
    await settled();
    expect(await heard()).toBe("by-hand-1");
    await page.evaluate(() => window.splitsum!.player.choose("parallel"));
    await page
      .getByRole("button", { name: /^Undo: pulling/ })
      .first()
      .click();
    await settled();
    expect(await heard()).toBe("by-hand-1");
    // What it is called may be no other wiring's name.
    await draw().getByLabel("This wiring, name").fill("all in mono");
    await draw().getByLabel("This wiring, name").press("Tab");
    expect(await draw().locator(".draw-label .fault").textContent()).toMatch(/"series-mono" has that label/);
    // Levels out of bounds leave the drawing as it is.
    await draw().getByLabel("mixer, in 3, level").fill("99");
    await draw().getByLabel("mixer, in 3, level").press("Tab");
    expect(await draw().locator(".mixer-part .fault").allTextContents()).toContainEqual(
      expect.stringMatching(/^gainDb is 99; a mixer input's gainDb goes from -60 to 12 dB/),
    );
    await jack("mixer, out right").focus();
    await page.keyboard.press("Delete");
    expect(await cables()).toHaveLength(7);
    await jack("Echo, out").click();
    expect(await axeFindings(page, "#draw")).toEqual([]);
    await page.setViewportSize({ width: 360, height: 740 });
    const widest = await page.evaluate(() => document.documentElement.scrollWidth);
    await page.setViewportSize({ width: 1366, height: 900 });
    expect(widest).toBeLessThanOrEqual(360);
  });
});

/** As a screen reader would begin. */
function nameOfFocused(): string {
  const node = document.activeElement;
  const label = node instanceof HTMLSelectElement ? node.labels?.[0] : null;
  return node?.getAttribute("aria-label") ?? label?.textContent ?? node?.textContent ?? "";
}

/** From the middle of one to the middle of the other, by mouse or by a finger of the browser's own. */
async function drag(
  page: Page,
  by: "mouse" | "touch",
  from: ReturnType<Page["locator"]>,
  to: ReturnType<Page["locator"]>,
): Promise<void> {
  await from.scrollIntoViewIfNeeded();
  // What comes or goes above the board moves it, until the browser has scrolled after it.
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
  const [start, end] = [await centre(from), await centre(to)];
  if (by === "mouse") {
    await page.mouse.move(start.x, start.y);
    await page.mouse.down();
    await page.mouse.move(start.x + 20, start.y + 20);
    await page.mouse.move(end.x, end.y);
    await page.mouse.up();
    return;
  }
  const session = await page.context().newCDPSession(page);
  const send = (type: "touchStart" | "touchMove" | "touchEnd", touchPoints: { x: number; y: number }[]) =>
    session.send("Input.dispatchTouchEvent", { type, touchPoints });
  await send("touchStart", [start]);
  await send("touchMove", [{ x: start.x + 20, y: start.y + 20 }]);
  await send("touchMove", [end]);
  await send("touchEnd", []);
}

async function centre(of: ReturnType<Page["locator"]>): Promise<{ x: number; y: number }> {
  const box = await of.boundingBox();
  if (!box) throw new Error("nothing to be seen");
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}
