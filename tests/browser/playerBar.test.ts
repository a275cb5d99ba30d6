import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { describeInChromium } from "./chromium.js";
import { newCalls, useFacePage } from "./facePage.js";

describeInChromium("the player stays in sight", (open) => {
  const face = useFacePage();
  const bar = ".hear .player-bar";

  test.each([360, 800])("on a page %i px wide, wherever it is scrolled to", async (width) => {
    const { page } = await open(face().file, { viewport: { width, height: 740 } });
    await page.locator("figure svg.chart").last().waitFor();
    const parts = [
      page.getByRole("button", { name: "Play" }),
      page.getByRole("combobox", { name: "Heard now" }),
      page.getByRole("slider", { name: "Position" }),
      page.locator(`${bar} .time`),
    ];
    for (const part of ["h1", "#turn", "#see", "#engine"]) {
      await page
        .locator(part)
        .last()
        .evaluate((node) => node.scrollIntoView({ behavior: "instant" }));
      for (const shown of parts) expect(await whollySeen(shown), `${part}: ${shown}`).toBe(true);
    }
    await page.getByRole("combobox", { name: "Heard now" }).selectOption({ label: "Two delays, one a side" });
    await page.getByRole("button", { name: "Play" }).click();
    expect(await page.evaluate(newCalls)).toEqual(["choose dual-mono", "play"]);
    await page.getByRole("radio", { name: /Delay first/ }).check();
    expect(await page.getByRole("combobox", { name: "Heard now" }).inputValue()).toBe("unit-first");
  });

  test("it is low, and covers nothing that has the focus, nor the end of the page", async () => {
    const options = { viewport: { width: 360, height: 740 }, reducedMotion: "reduce" } as const;
    const { page } = await open(face().file, options);
    await page.locator("figure svg.chart").last().waitFor();
    expect((await page.locator(bar).boundingBox())?.height).toBeLessThan(740 / 8);
    const covered: string[] = [];
    const seen = new Set<string>();
    for (;;) {
      await page.keyboard.press("Tab");
      const { name, isCovered } = await page.evaluate(focused, bar);
      if (name === "" || seen.has(name)) break;
      seen.add(name);
      if (isCovered) covered.push(name);
    }
    expect(seen.size).toBeGreaterThan(60);
    expect(covered).toEqual([]);
    await page.evaluate(() => scrollTo({ top: document.documentElement.scrollHeight, behavior: "instant" }));
    const ends = await page.evaluate((name) => {
      const top = document.querySelector(name)?.getBoundingClientRect().top ?? 0;
      const last = [...document.querySelectorAll("main section")].map(
        (node) => node.getBoundingClientRect().bottom,
      );
      return { top, last: Math.max(...last) };
    }, bar);
    expect(ends.last).toBeLessThanOrEqual(ends.top);
  });

  test("where a window is too low for it, it stands in its place", async () => {
    // WCAG 2.2, 1.4.10: 1280 by 1024 px at 400 % are 320 by 256.
    const { page } = await open(face().file, { viewport: { width: 320, height: 256 } });
    expect(await page.locator(bar).evaluate((node) => getComputedStyle(node).position)).toBe("static");
  });

  test("beside the rest on a desk of 1366 by 768 px, with the volume on the screen", async () => {
    const { page } = await open(face().file, { viewport: { width: 1366, height: 768 } });
    await page.locator("figure svg.chart").last().waitFor();
    const parts = [
      page.getByRole("button", { name: "Play" }),
      page.getByRole("slider", { name: "Volume" }),
      page.getByText("Start low, above all on headphones"),
    ];
    for (const part of ["h1", "#see"]) {
      await page.locator(part).evaluate((node) => node.scrollIntoView({ behavior: "instant" }));
      for (const shown of parts) expect(await whollySeen(shown), `${part}: ${shown}`).toBe(true);
    }
  });
});

/** Whether all of it is within the window and nothing lies over its middle. */
const whollySeen = (shown: ReturnType<Page["locator"]>): Promise<boolean> =>
  shown.evaluate((node) => {
    const { left, right, top, bottom } = node.getBoundingClientRect();
    const front = document.elementFromPoint((left + right) / 2, (top + bottom) / 2);
    const isInFront = front !== null && (node.contains(front) || front.contains(node));
    return left >= 0 && top >= 0 && right <= innerWidth && bottom <= innerHeight && isInFront;
  });

/** What has the focus, and whether the bar covers any of it. */
function focused(bar: string): { name: string; isCovered: boolean } {
  const node = document.activeElement;
  if (!(node instanceof HTMLElement) || node === document.body) return { name: "", isCovered: false };
  node.dataset.place ??= String(document.querySelectorAll("[data-place]").length);
  const { top } = document.querySelector(bar)?.getBoundingClientRect() ?? { top: innerHeight };
  const isInBar = node.closest(bar) !== null;
  const { height, bottom } = node.getBoundingClientRect();
  // What is higher than the window cannot be seen whole.
  return {
    name: `${node.dataset.place} ${node.tagName} ${node.getAttribute("aria-label") ?? ""}`,
    isCovered: !isInBar && height < top && bottom > top + 0.5,
  };
}
