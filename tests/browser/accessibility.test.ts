import { expect, test } from "vitest";
import { axeFindings } from "./axe.js";
import { describeInChromium } from "./chromium.js";
import { useFacePage } from "./facePage.js";

describeInChromium("accessibility", (open) => {
  const face = useFacePage();

  test("axe finds nothing, light or dark", async () => {
    const { page } = await open(face().file);
    await page.locator("figure svg.chart").last().waitFor();
    expect(await axeFindings(page)).toEqual([]);
  });

  test("nor with all tables open, a fault shown and 320 px", async () => {
    const { page } = await open(face().file, { viewport: { width: 320, height: 800 } });
    for (const summary of await page.locator("figure summary").all()) await summary.click();
    await page
      .getByRole("spinbutton", { name: /, mix$/ })
      .first()
      .fill("7");
    await page.keyboard.press("Enter");
    expect(await axeFindings(page)).toEqual([]);
  });

  test("nor in a trial, at its end, or in the list of keys", async () => {
    const { page } = await open(face().file);
    await page.getByLabel("Number of trials").fill("1");
    await page.getByRole("button", { name: "Start the trial" }).click();
    expect(await axeFindings(page)).toEqual([]);
    await page.keyboard.press("2");
    await page.keyboard.press("3");
    await page.getByRole("button", { name: "X is A" }).click();
    await page.getByText("Every answer").click();
    expect(await axeFindings(page, "#trial")).toEqual([]);
    await page.keyboard.press("?");
    expect(await axeFindings(page, "dialog")).toEqual([]);
  });

  test("everything that can be worked is reached by Tab and shows its focus", async () => {
    const { page } = await open(face().file);
    const all = await page.evaluate(
      () =>
        [...document.querySelectorAll<HTMLElement>("button, select, input, summary, a[href]")].filter(
          (node) => node.checkVisibility() && !node.matches(":disabled, [type=radio]:not(:checked)"),
        ).length,
    );
    const reached = new Set<string>();
    const unseen: string[] = [];
    for (let press = 0; press < 2 * all; press++) {
      await page.keyboard.press("Tab");
      const { id, outline } = await page.evaluate(() => {
        const node = document.activeElement;
        if (!(node instanceof HTMLElement) || node === document.body) return { id: "", outline: "" };
        node.dataset.reached ??= String(document.querySelectorAll("[data-reached]").length);
        const workable = node.matches("button, select, input, summary, a[href]");
        const { outlineStyle, outlineWidth } = getComputedStyle(node);
        return { id: workable ? node.dataset.reached : "", outline: `${outlineStyle} ${outlineWidth}` };
      });
      if (id === "") continue;
      if (reached.has(id)) break;
      reached.add(id);
      if (!/^(solid|auto) [1-9]/.test(outline)) unseen.push(outline);
    }
    expect(reached.size).toBe(all);
    expect(unseen).toEqual([]);
  });

  test("still where less motion is asked for; the choice is seen with forced colours and with more contrast", async () => {
    const { page } = await open(face().file, { reducedMotion: "reduce" });
    const moving = await page.evaluate(
      () =>
        [...document.querySelectorAll("*")].filter((node) => {
          const { scrollBehavior, transitionDuration, animationName } = getComputedStyle(node);
          return scrollBehavior === "smooth" || transitionDuration !== "0s" || animationName !== "none";
        }).length,
    );
    expect(moving).toBe(0);
    await page.emulateMedia({ forcedColors: "active" });
    const chosen = page.locator(".choice:has(input:checked)").first();
    expect(await chosen.evaluate((node) => getComputedStyle(node).outlineStyle)).toBe("solid");
    await page.emulateMedia({ forcedColors: "none", contrast: "more" });
    const [muted, ink] = await page.evaluate(() =>
      [".reads", "h3"].map((part) => getComputedStyle(document.querySelector(part) ?? document.body).color),
    );
    expect(muted).toBe(ink);
  });
});
