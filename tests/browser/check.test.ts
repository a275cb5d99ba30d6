import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { routingIds } from "../../src/rig/routings/routing.js";
import { noise } from "../signals.js";
import { axeFindings } from "./axe.js";
import { describeInChromium } from "./chromium.js";
import { comparison } from "./comparison.js";
import { rigYaml } from "./rig.js";

const rateHz = 24_000;
const take = { channels: [noise({ seed: 21, frames: rateHz, rms: 0.1 })], rateHz, bits: 24 } as const;
/** A mono delay in place of the plate: standard nodes make the whole rig. */
const standard = rigYaml
  .replace("model: plate", "model: delay")
  .replace("mix: 0.35", "mix: 0.35, delayMs: 40");

const openReturns = rigYaml.replace("mixer: { returnDb: -8 }\n", "");

const allCompared = `${routingIds.length} routings compared, all within what they may differ.`;

async function checked(page: Page) {
  await page.waitForFunction(() => window.splitsum?.progress === null);
  expect(await page.evaluate(() => window.splitsum!.engineCheck.found)).toBeNull();
  await page.getByRole("button", { name: "Check the engine" }).click();
  await page.waitForFunction(() => window.splitsum!.engineCheck.isCurrent);
  return page.evaluate(() => window.splitsum!.engineCheck.found!);
}

/** Target: at most -90 dBFS RMS with delays that swing. */
describeInChromium("the engine against the browser's own, on the page", (open) => {
  test("every routing of standard nodes is within its target, and shown", async () => {
    const { page, complaints } = await open((await comparison(standard, take)).bench);
    const found = await checked(page);
    expect(found).toHaveLength(routingIds.length);
    for (const { id, skipped, withinTarget, rmsDbfs } of found) {
      expect({ id, skipped, withinTarget }).toEqual({ id, skipped: null, withinTarget: true });
      expect(rmsDbfs, id).toBeLessThan(-90);
    }
    const section = page.locator("#engine");
    expect(await section.locator("tbody tr").count()).toBe(routingIds.length);
    expect(await section.textContent()).toContain(allCompared);
    expect(await axeFindings(page, "#engine")).toEqual([]);
    await page.evaluate(() => window.splitsum!.setSetting("Weir", "lfoHz", 2));
    expect(await section.textContent()).toContain("Of other settings or another take than those now");
    expect(complaints).toEqual([]);
  });

  test("what no standard node makes is told with its reason", async () => {
    const { page, complaints } = await open((await comparison(openReturns, take)).bench);
    const found = await checked(page);
    for (const { id, skipped, withinTarget, pedals } of found) {
      expect({ id, skipped, withinTarget }).toEqual({ id, skipped: null, withinTarget: true });
      const why = expect.stringContaining("a network of feedback loops");
      expect(pedals, id).toContainEqual(expect.objectContaining({ model: "plate", by: "hand-over", why }));
    }
    const text = await page.locator("#engine").textContent();
    expect(text).toContain("splitsum's own sound of it is played in its place");
    expect(text).toMatch(/parallel: Tank -?\d+\.\d\d dB, in line -?\d+\.\d\d dB: as it is to be/);
    expect(text).toContain(`${allCompared} 2 returns judged, all as in line.`);
    expect(complaints).toEqual([]);
  });
});
