import { writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { routingIds } from "../../src/rig/routings/routing.js";
import { proofHtml } from "../../src/words/proofHtml.js";
import { pedal, rigOf } from "../rigs.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { provenRigs } from "../work/proof/provenRigs.js";
import { describeInChromium } from "./chromium.js";
import { useFacePage } from "./facePage.js";
import { longSheets } from "./proofSheet.js";

/** Pages of a PDF file: its page objects. Source: ISO 32000-1, 7.7.3.3, from memory; Chromium writes them uncompressed. */
const pagesOf = (pdf: Buffer): number => (pdf.toString("latin1").match(/\/Type\s*\/Page[^s]/g) ?? []).length;

/** Width and height of the first page, point. */
function sizeOf(pdf: Buffer): number[] {
  const [, box = ""] = pdf.toString("latin1").match(/\/MediaBox\s*\[([^\]]*)\]/) ?? [];
  return box.trim().split(/\s+/).slice(2).map(Number);
}

/** Eleven pedals, two runs of mono units, two amps: the longest sheets that a board of this world has. */
const bigRig = rigOf(
  [
    pedal("Crest", "boost", "mono"),
    pedal("Ember", "overdrive", "mono"),
    pedal("Undertow", "vibrato", "mono-to-stereo", {}, { latencyMs: 1.2 }),
    pedal("Ledger", "delay", "stereo"),
    pedal("Boiler tank", "delay", "mono", {}, { canGoFullyWet: false, latencyMs: 2, invertsPolarity: true }),
    pedal("Tide", "chorus", "stereo"),
    pedal(
      "Long gallery with a name that goes on",
      "delay",
      "mono",
      {},
      { whenOff: "buffered", latencyMs: 1 },
    ),
    pedal("Slow mile", "tremolo", "mono"),
    pedal("Weir", "flanger", "stereo"),
    pedal("Cabinet left and right", "speaker", "stereo"),
    pedal("Level", "boost", "stereo"),
  ],
  { name: "Eleven pedals", playsInto: "two-amps" },
);

describeInChromium("in print", (open) => {
  const small = useFacePage();
  const big = useFacePage(bigRig);

  test.each([
    ["A4", [842, 595]],
    ["Letter", [792, 612]],
  ] as const)("each routing is one sheet of %s, on its side", async (format, size) => {
    for (const face of [small(), big()]) {
      const { page } = await open(face.file, { colorScheme: "dark" });
      const pdf = await page.pdf({ format });
      const possible = face.facts.report.routings.filter((routing) => routing.possible).length;
      expect(possible).toBe(routingIds.length);
      expect(pagesOf(pdf)).toBe(possible);
      for (const [n, points] of sizeOf(pdf).entries()) expect(Math.abs(points - size[n])).toBeLessThan(2);
    }
  });

  test("a proof's sheet is one page, however much stands on it", async () => {
    const sheets = provenRigs.flatMap(({ rig, plan }) => longSheets(rig, plan).map(proofHtml));
    const file = join(temporaryFolder(), "proof.html");
    writeFileSync(file, sheets[0]);
    const { page } = await open(file);
    for (const sheet of sheets) {
      await page.setContent(sheet);
      for (const format of ["A4", "Letter"]) expect(pagesOf(await page.pdf({ format }))).toBe(1);
    }
  });

  test("one sheet alone where that was asked for", async () => {
    const { page } = await open(small().file);
    const printed = page.evaluate(
      () =>
        new Promise<string | undefined>((told) => {
          window.print = () => told(document.documentElement.dataset.print);
        }),
    );
    await page.getByRole("button", { name: "Print this sheet" }).click();
    expect(await printed).toBe("one");
    expect(pagesOf(await page.pdf({ format: "A4" }))).toBe(1);
    await page.evaluate(() => dispatchEvent(new Event("afterprint")));
    expect(await page.evaluate(() => document.documentElement.dataset.print)).toBeUndefined();
  });

  test("black on white, whatever the screen was", async () => {
    const { page } = await open(small().file, { colorScheme: "dark" });
    await page.emulateMedia({ media: "print", colorScheme: "dark" });
    expect(await coloursOf(page)).toEqual({ paper: "rgb(255, 255, 255)", ink: ["rgb(0, 0, 0)"] });
  });

  test("nothing but the sheets", async () => {
    const { page } = await open(small().file);
    await page.evaluate(() => {
      window.fakeBench.progress = { done: 0.5, what: "rendering" };
      window.fakeBench.tell("progress");
    });
    expect(await page.locator(".progress").isVisible()).toBe(true);
    await page.emulateMedia({ media: "print" });
    const rest = ".head, #hear, #turn, #see, #trial, #take, #build > .actions, .progress";
    expect(await page.locator(rest).count()).toBe(8);
    for (const part of await page.locator(rest).all()) {
      expect(await part.isVisible()).toBe(false);
    }
    expect(await page.locator(".sheet:visible").count()).toBe(routingIds.length);
  });

  test("print stays readable: 5.5 point at least, and the usual 10 on a short sheet", async () => {
    for (const [face, least] of [
      [small(), 7],
      [big(), 5.5],
    ] as const) {
      const { page } = await open(face.file);
      await page.evaluate(() => dispatchEvent(new Event("beforeprint")));
      const sizes = await page
        .locator(".sheet")
        .evaluateAll((sheets) =>
          sheets.map((sheet) =>
            sheet instanceof HTMLElement
              ? Number.parseFloat(sheet.style.getPropertyValue("--print-size"))
              : 0,
          ),
        );
      expect(Math.min(...sizes)).toBeGreaterThanOrEqual(least);
      expect(sizes[0]).toBe(face === small() ? 10 : sizes[0]);
    }
  });
});

/** Background of the page, and every colour that text of a sheet is set in. */
const coloursOf = (page: Page): Promise<{ paper: string; ink: string[] }> =>
  page.evaluate(() => {
    const ink = new Set<string>();
    for (const node of document.querySelectorAll(".sheet :is(h3, p, td, th, li, caption, text)")) {
      const style = getComputedStyle(node);
      ink.add(node instanceof SVGElement ? style.fill : style.color);
    }
    return { paper: getComputedStyle(document.documentElement).backgroundColor, ink: [...ink] };
  });
