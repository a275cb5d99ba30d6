import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import { encodeWav } from "../../../src/sound/audio/encodeWav.js";
import type { Report } from "../../../src/work/compare/report.js";
import { sine } from "../../signals.js";
import { type Comparison, comparison, expectSameFigures } from "../comparison.js";
import { rigYaml } from "../rig.js";
import { sineTake } from "../sineTake.js";
import { chromium } from "./chromiumKind.js";
import { describeIn } from "./describeIn.js";
import { firefox } from "./firefox.js";
import { drop, figures, keepFiles, listen, playOn, pressButton, savedText } from "./inPage.js";
import type { Tab } from "./tab.js";
import { webkit } from "./webkit.js";

interface Figures {
  readonly takeName: string;
  readonly report: Report;
}
const figuresOf = (tab: Tab) => tab.run(figures, null) as Promise<Figures>;

for (const kind of [chromium, firefox, webkit]) {
  describeIn(kind, "the page", (started) => {
    let made: Comparison;
    let tab: Tab;
    beforeAll(async () => {
      const [opened, browser] = await Promise.all([comparison(rigYaml, sineTake()), started()]);
      made = opened;
      tab = await browser.open(made.bench);
      await tab.run(keepFiles, null);
      await tab.run(listen, null);
    });

    test("opens from a file and renders what the command line does", async () => {
      const { report } = await figuresOf(tab);
      for (const { id, measures } of made.report.routings) {
        const here = report.routings.find((routing) => routing.id === id)?.measures;
        expectSameFigures(here?.integratedLufs, measures?.integratedLufs, 5, id);
        expectSameFigures(here?.sideShare, measures?.sideShare, 5, id);
      }
    });

    /**
     * What comes out is looked at sample by sample in audio.test.ts, where the clock stands still. Here: that it comes out,
     * and that what the key does leaves time: drawing before the end of that made every switch click in Firefox.
     */
    test("plays by key, and a switch by key is asked for in time", async () => {
      await figuresOf(tab);
      await tab.press(" ");
      await tab.run(playOn, 0.3);
      await tab.run(() => {
        window.heard!.spareMs.length = 0;
      }, null);
      for (const key of ["3", "1", "5", "2", "1"]) {
        await tab.press(key);
        await tab.run(playOn, 0.1);
      }
      const { playing, chosen, spareMs, peak } = await tab.run(() => {
        const { playing, chosen } = window.splitsum!.player;
        const { spareMs, peak } = window.heard!;
        return { playing, chosen, peak, spareMs: spareMs.sort((a, b) => a - b) };
      }, null);
      expect({ playing, chosen }).toEqual({ playing: true, chosen: "series-mono" });
      expect(peak).toBeGreaterThan(0.01);
      expect(spareMs.length).toBeGreaterThanOrEqual(10);
      // The median: one may lose its processor to another program.
      expect(spareMs[spareMs.length >> 1]).toBeGreaterThan(0);
      await tab.press(" ");
      expect(await tab.run(() => window.splitsum!.player.playing, null)).toBe(false);
    });

    test("runs a blind trial to its end", async () => {
      await tab.run(() => {
        const field = [...document.querySelectorAll("input")].find((input) =>
          input.labels?.[0]?.textContent?.includes("Number of trials"),
        );
        if (!field) throw new Error("no field for the number of trials");
        field.value = "5";
        field.dispatchEvent(new Event("input", { bubbles: true }));
        field.dispatchEvent(new Event("change", { bubbles: true }));
      }, null);
      await tab.run(pressButton, "Start the trial");
      for (let trial = 0; trial < 5; trial++) {
        await tab.press("2");
        await tab.press("3");
        await tab.run(pressButton, "X is A");
      }
      const verdict = await tab.run(() => document.querySelector(".verdict")?.textContent ?? "", null);
      expect(verdict).toMatch(/^[0-5] of 5 right\./);
      await tab.run(pressButton, "Save as JSON");
      const saved = JSON.parse(await tab.run(savedText, "blind-trial.json"));
      expect(saved.answers).toHaveLength(5);
    });

    test("takes a take that is dropped on it, and saves itself with that", async () => {
      const samples = sine({ frequencyHz: 440, rateHz: 44_100, lengthSeconds: 1.2, peakDbfs: -12 });
      const wav = encodeWav({ channels: [samples], rateHz: 44_100 }, 24);
      await tab.run(drop, { name: "dropped.wav", base64: Buffer.from(wav).toString("base64") });
      await tab.run(async () => {
        while (window.splitsum!.takeName !== "dropped.wav") {
          await new Promise((resolve) => setTimeout(resolve, 20));
        }
      }, null);
      const { report } = await figuresOf(tab);
      expect(report.take.rateHz).toBe(44_100);

      await tab.run(pressButton, "Save the rig file");
      expect(await tab.run(savedText, ".yaml")).toBe(rigYaml);
      await tab.run(pressButton, "Save this page");
      const file = join(made.folder, `${kind.name}.html`);
      writeFileSync(file, await tab.run(savedText, ".html"));
      const mailedTab = await (await started()).open(file);
      const mailed = await figuresOf(mailedTab);
      const shown = () => mailedTab.run(headingsInSight, null);
      expect(await shown()).toEqual([
        "Hear the wirings",
        "The question",
        "Try it blind",
        "Which do you like?",
        "Which to build",
      ]);
      await mailedTab.run(async () => {
        document.querySelector<HTMLElement>("a.extent")?.click();
        while (document.getElementById("rig")?.hidden)
          await new Promise((resolve) => setTimeout(resolve, 20));
      }, null);
      expect(await shown()).toContain("The rig");
      expect(mailed.takeName).toContain("dropped");
      expectSameFigures(
        mailed.report.routings.map(({ measures }) => measures?.integratedLufs),
        report.routings.map(({ measures }) => measures?.integratedLufs),
        5,
      );
    });
  });
}

/** Runs in the page. */
const headingsInSight = (): string[] =>
  [...document.querySelectorAll("main section > h2")]
    .filter((heading) => heading.getClientRects().length > 0)
    .map((heading) => heading.textContent ?? "")
    .sort();
