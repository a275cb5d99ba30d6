import type { Page } from "playwright-core";
import { beforeAll, expect, test } from "vitest";
import { routingIds } from "../../src/rig/routings/routing.js";
import { switchesText } from "../../src/words/switchesText.js";
import { sectionOf } from "../../src/work/switches/switchSection.js";
import type { RoutingSwitches } from "../../src/work/switches/switchTypes.js";
import { run } from "../cli/run.js";
import { noise } from "../signals.js";
import { axeFindings } from "./axe.js";
import { describeInChromium } from "./chromium.js";
import { type Comparison, comparison, expectSameFigures } from "./comparison.js";
import { useFacePage } from "./facePage.js";
import { rigYaml } from "./rig.js";

const rateHz = 24_000;
/** A second of noise that 24 bits hold exactly. */
const take = {
  channels: [noise({ seed: 21, frames: rateHz, rms: 0.1 }).map((x) => Math.round(x * 2 ** 23) / 2 ** 23)],
  rateHz,
  bits: 24,
} as const;

/** The demo rig of the tests with a unit that leaves a comb when off. */
const yaml = rigYaml.replace("price: 240", "whenOff: buffered, latencyMs: 1.5");

const workedOut = (page: Page) =>
  page.waitForFunction(() => {
    const { switches } = window.splitsum!;
    return switches.progress === null && switches.isCurrent;
  });
const found = (page: Page): Promise<readonly RoutingSwitches[]> =>
  page.evaluate(() => window.splitsum!.switches.found!);
const flat = (text: string): string => text.replaceAll("\u2212", "-").replace(/\s+/g, " ");

async function asked(page: Page, routing = ""): Promise<void> {
  await page.waitForFunction(() => window.splitsum?.progress === null);
  await page.locator("#switches").getByLabel("Routing").selectOption(routing);
  await page.getByRole("button", { name: "Work it out" }).click();
  await workedOut(page);
}

/** What the command line prints for a rig as text. */
async function printed({ folder }: Comparison, ...words: string[]) {
  const { out, err, status } = await run(["switches", "rig.yaml", "take.wav", ...words], {
    cwd: folder,
  });
  expect({ err, status }).toEqual({ err: "", status: 0 });
  return out;
}

describeInChromium("what footswitches do, on the page", (open) => {
  const made = comparison(yaml, take);

  /** A narrow page that was asked about every routing, for all tests that only look. */
  let page: Page;
  let complaints: readonly string[];
  let tablesBefore: number;
  beforeAll(async () => {
    ({ page, complaints } = await open((await made).bench, { viewport: { width: 320, height: 800 } }));
    await page.waitForFunction(() => window.splitsum?.progress === null);
    expect(await page.evaluate(() => window.splitsum!.switches.found)).toBeNull();
    tablesBefore = await page.locator("#switches table").count();
    await asked(page);
  });

  test("nothing is computed before it is asked for; then the figures are those of switches --json", async () => {
    expect(tablesBefore).toBe(0);
    const json = JSON.parse(await printed(await made, "--json"));
    const ours = (await found(page)).map(({ id, states, steps }) => ({ id, states, steps }));
    expect(ours.length).toBe(routingIds.length);
    expect(ours.flatMap(({ steps }) => steps.flatMap(({ flags }) => flags)).length).toBeGreaterThan(20);
    expectSameFigures(ours, json.routings, 9, "switches");
    expect(complaints).toEqual([]);
  });

  test("every cell and every sentence is that of the printed table", async () => {
    const text = flat(await printed(await made));
    const section = page.locator("#switches");
    const rows = await section
      .locator("tbody tr")
      .evaluateAll((all) =>
        all.map((row) => [...row.querySelectorAll("th, td")].map((cell) => cell.textContent).join(" ")),
      );
    expect(rows.length).toBeGreaterThan(10);
    for (const row of rows) expect(text).toContain(flat(row));
    const sentences = await section
      .locator(".lead, .noticed li, .thresholds :is(h3, li, p)")
      .evaluateAll((nodes) =>
        nodes.flatMap((node) => [...node.childNodes].map((child) => child.textContent ?? "")),
      );
    expect(sentences.length).toBeGreaterThan(15);
    for (const sentence of sentences) expect(text).toContain(flat(sentence));
    // And nothing is missing: the page's words and the command's are of one length, but for headings and units.
    const head = { rig: "", takeFile: "", takeSeconds: 0, loadingNote: "" };
    const whole = flat(switchesText(head, sectionOf(await found(page)), 1000));
    for (const cure of whole.match(/Cure of .*?(?=\. )/g) ?? []) {
      expect(flat(sentences.join(" "))).toContain(cure);
    }
  });

  test("it is the rig as it is set now that is looked at; one turned later is said to be another", async () => {
    const command = await made;
    const { page } = await open(command.bench);
    await page.waitForFunction(() => window.splitsum?.progress === null);
    await page.evaluate(() => window.splitsum!.setUnit("Tank", { levelDb: -6 }));
    await asked(page, "series-mono");
    const turned = await comparison(await page.evaluate(() => window.splitsum!.desk.text), take);
    const json = JSON.parse(await printed(turned, "--json", "--routings", "series-mono"));
    const ours = (await found(page)).map(({ id, states, steps }) => ({ id, states, steps }));
    expectSameFigures(ours, json.routings, 9, "switches");
    const note = page.locator("#switches .caution");
    expect(await note.isVisible()).toBe(false);
    await page.evaluate(() => window.splitsum!.setUnit("Tank", { levelDb: 0 }));
    await expect.poll(() => note.isVisible()).toBe(true);
  });

  test("it can be stopped, and a knob that is turned stops it", async () => {
    const { page, complaints } = await open((await made).bench);
    await page.waitForFunction(() => window.splitsum?.progress === null);
    const busy = () => page.evaluate(() => window.splitsum!.switches.progress !== null);
    // Both in one breath, so that it cannot be done before it is stopped.
    const seen = await page.evaluate(() => {
      const press = (words: string) =>
        [...document.querySelectorAll("button")].find((node) => node.textContent === words)?.click();
      const isBusy = () => window.splitsum!.switches.progress !== null;
      press("Work it out");
      const before = isBusy();
      press("Stop");
      return [before, isBusy()];
    });
    expect(seen).toEqual([true, false]);
    await page.evaluate(() => {
      window.splitsum!.workOutSwitches(["dual-mono"]);
      window.splitsum!.setSetting("Tank", "mix", 0.5);
    });
    expect(await busy()).toBe(false);
    await page.waitForFunction(() => window.splitsum!.progress === null);
    expect(await page.evaluate(() => window.splitsum!.switches.found)).toBeNull();
    await asked(page, "dual-mono");
    expect((await found(page)).map(({ id }) => id)).toEqual(["dual-mono"]);
    expect(complaints).toEqual([]);
  });

  test("axe finds nothing, and nothing runs out at 320 px", async () => {
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
    expect(await axeFindings(page, "#switches")).toEqual([]);
  });

  test("it prints by itself, black on white", async () => {
    await page.emulateMedia({ colorScheme: "dark" });
    const told = page.evaluate(
      () =>
        new Promise<string | undefined>((tell) => {
          window.print = () => tell(document.documentElement.dataset.print);
        }),
    );
    await page.getByRole("button", { name: "Print this", exact: true }).click();
    expect(await told).toBe("switches");
    await page.emulateMedia({ media: "print", colorScheme: "dark" });
    const section = page.locator("#switches");
    expect(await section.locator("table:visible").count()).toBe(routingIds.length);
    expect(await section.locator("button:visible").count()).toBe(0);
    expect(await page.locator(".sheet:visible, #see:visible").count()).toBe(0);
    const ink = await section
      .locator("td")
      .first()
      .evaluate((node) => getComputedStyle(node).color);
    expect(ink).toBe("rgb(0, 0, 0)");
  });
});

describeInChromium("the part of the page on switches", (open) => {
  const face = useFacePage();

  test("the button asks for all routings that are possible, or for one", async () => {
    const { page } = await open(face().file);
    await page.getByRole("button", { name: "Work it out" }).click();
    await page.getByRole("button", { name: "Stop" }).click();
    await page.locator("#switches").getByLabel("Routing").selectOption("dual-mono");
    await page.getByRole("button", { name: "Work it out" }).click();
    const possible = face()
      .facts.report.routings.filter((routing) => routing.possible)
      .map(({ id }) => id);
    expect(await page.evaluate(() => window.fakeBench.calls)).toEqual([
      `workOutSwitches ${possible.join(" ")}`,
      "stopSwitches",
      "workOutSwitches dual-mono",
    ]);
  });
});
