import { writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { beforeAll, expect, test } from "vitest";
import { benchPage } from "../../src/node/page/benchPage.js";
import { bytesSource } from "../../src/sound/audio/byteSource.js";
import { encodeWav } from "../../src/sound/audio/encodeWav.js";
import { openWavReader } from "../../src/sound/audio/wavReader.js";
import { noise } from "../signals.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { axeFindings } from "./axe.js";
import { describeInChromium } from "./chromium.js";
import {
  fakeInputFlags,
  fakePieceFrames,
  fakeRateHz,
  largestDifference,
  writeFakeInput,
} from "./fakeInput.js";
import { recordInstead } from "./recorder.js";

const folder = temporaryFolder();
const microphone = join(folder, "microphone.wav");

describeInChromium(
  "recording a take",
  (open) => {
    const bench = join(folder, "bench.html");
    let heard: readonly Float32Array[];
    beforeAll(async () => {
      const sides = [21, 22].map((seed) => noise({ seed, frames: 70 * fakePieceFrames, rms: 0.1 }));
      heard = writeFakeInput(microphone, sides);
      const take = join(folder, "short.wav");
      writeFileSync(
        take,
        encodeWav({ rateHz: 16_000, channels: [noise({ seed: 1, frames: 8000, rms: 0.1 })] }, 24),
      );
      const { html } = await benchPage({ rigFile: null, takeFiles: [take], examples: [], tailSeconds: 1 });
      writeFileSync(bench, html);
    });

    const button = (page: Page, name: string) =>
      page.locator("#take").getByRole("button", { name, exact: true });
    const recordedFor = (page: Page, seconds: number) =>
      page.waitForFunction((least) => window.splitsum!.recorder.seconds > least, seconds);
    const focused = (page: Page) => page.evaluate(() => document.activeElement?.textContent);
    const recorded = async (page: Page) => {
      const letters = await page.evaluate(async () => {
        const bytes = new Uint8Array(await window.splitsum!.recorder.file().arrayBuffer());
        return bytes.reduce((text, byte) => text + String.fromCharCode(byte), "");
      });
      const reader = openWavReader(bytesSource("recorded.wav", Buffer.from(letters, "latin1")));
      const sides = Array.from({ length: reader.channels }, () => new Float32Array(reader.frames));
      let at = 0;
      for await (const { block, frames } of reader.pieces()) {
        sides.forEach((side, n) => {
          side.set(block[n].subarray(0, frames), at);
        });
        at += frames;
      }
      return { rateHz: reader.rateHz, sides };
    };

    /** Chromium's fake device gives the file back to within a step and a half of its 16 bits: 0.00005. */
    test("by keyboard alone: both channels come out as they went in, become the take, and outlive another rig", async () => {
      const { page, complaints } = await open(bench);
      await page.waitForFunction(() => window.splitsum?.progress === null);
      const findings: string[] = [];
      await button(page, "Use an audio input").focus();
      await page.keyboard.press("Enter");
      await button(page, "Record").waitFor();
      expect(await focused(page)).toContain("Fake Default Audio Input");
      await page.getByLabel("Channel", { exact: true }).selectOption("channels 1 and 2, left and right");
      await page.getByRole("radio", { name: "none" }).check();
      await expect
        .poll(() => page.locator("#take").getByRole("meter").first().getAttribute("aria-valuetext"))
        .toMatch(/not clipped/);
      findings.push(...(await axeFindings(page, "#take")));
      await button(page, "Record").focus();
      await page.keyboard.press("Enter");
      expect(await focused(page)).toBe("Stop");
      // A page that is busy loses nothing.
      await page.evaluate(() => {
        for (const from = performance.now(); performance.now() - from < 700; );
      });
      await recordedFor(page, 0.8);
      findings.push(...(await axeFindings(page, "#take")));
      await page.keyboard.press("Enter");
      await page
        .locator("#take .recorded")
        .getByText(/^Recorded:/)
        .waitFor();
      expect(await focused(page)).toBe("Use it as the take");
      findings.push(...(await axeFindings(page, "#take")));
      const { rateHz, sides } = await recorded(page);
      expect([rateHz, sides.length]).toEqual([fakeRateHz, 2]);
      expect(sides[0].length).toBeGreaterThan(0.8 * fakeRateHz);
      for (const [n, side] of sides.entries()) expect(largestDifference(heard[n], side)).toBeLessThan(6e-5);
      await page.keyboard.press("Enter");
      await page
        .locator("#take .recorded")
        .getByText(/^This is the take now:/)
        .waitFor();
      expect(await focused(page)).toBe("Listen");
      const name = await page.evaluate(() => window.splitsum!.takeName);
      expect(name).toMatch(/^take \d{4}-\d\d-\d\d \d\d\.\d\d\.\d\d\.wav$/);
      // A rig of another shape: panels are made anew.
      await page.evaluate(() =>
        window.splitsum!.desk.edit("adding", [
          { set: ["pedals"], to: [{ name: "Weir", model: "tremolo", jacks: "mono-to-stereo" }] },
        ]),
      );
      await page.waitForFunction(
        () => window.splitsum!.report !== null && window.splitsum!.progress === null,
      );
      const { file, channels, frames } = await page.evaluate(() => window.splitsum!.report!.take);
      expect([file, channels, frames]).toEqual([name, 2, sides[0].length]);
      expect((await recorded(page)).sides[0].length).toBe(frames);
      await button(page, "Discard it").click();
      expect(await focused(page)).toBe("Record");
      expect(findings).toEqual([]);
      expect(complaints).toEqual([]);
    });

    /** What would be played is rendered at once: see recorder.ts. */
    test("counts in with a click a beat, can be stopped while it counts, and leaves a recording that is there", async () => {
      const { page } = await open(bench, {}, recordInstead);
      await button(page, "Use an audio input").click();
      await page.getByRole("radio", { name: "beats" }).check();
      await page.getByRole("spinbutton", { name: "Count-in, beats" }).fill("2");
      await page.getByRole("spinbutton", { name: "Count-in, tempo" }).fill("300");
      await page.getByRole("spinbutton", { name: "Count-in, tempo" }).press("Tab");
      await page.evaluate(() => {
        const { recorder } = window.splitsum!;
        const seen: string[] = [];
        Object.assign(window, { seen });
        window.splitsum!.listen((change) => {
          const { state } = recorder;
          if (change === "recorder") seen.push(state.kind === "counting" ? `${state.left}` : state.kind);
        });
      });
      await button(page, "Record").click();
      await recordedFor(page, 0.3);
      await button(page, "Stop").click();
      await page
        .locator("#take .recorded")
        .getByText(/^Recorded:/)
        .waitFor();
      expect(await page.evaluate(() => Reflect.get(window, "seen"))).toEqual([
        "2",
        "1",
        "recording",
        "ready",
      ]);
      const { sides } = await recorded(page);
      expect(sides.length).toBe(1);
      expect(largestDifference(heard[0], sides[0])).toBeLessThan(6e-5);
      const [clicks] = await page.evaluate(() => window.recorder!.run());
      const played = new Float32Array(new Uint8Array(Buffer.from(clicks, "latin1")).buffer);
      const peaks = [0, 0.05, 0.08, 0.25, 0.28].map((from, n, all) => {
        const part = played.subarray(from * fakeRateHz + 1, (all[n + 1] ?? 2) * fakeRateHz);
        return part.reduce((most, x) => Math.max(most, Math.abs(x)), 0);
      });
      // At the player's volume: -12 dB, less what the oscillator misses of the top.
      for (const n of [1, 3]) expect(peaks[n]).toBeGreaterThan(0.2);
      expect(Math.max(...peaks)).toBeLessThan(0.252);
      for (const n of [0, 2, 4]) expect(peaks[n]).toBeLessThan(1e-4);
      await button(page, "Let the input go").click();
      expect(await button(page, "Use it as the take").isVisible()).toBe(true);
      await button(page, "Discard it").click();
      await button(page, "Use an audio input").click();
      await page.getByRole("spinbutton", { name: "Count-in, tempo" }).fill("30");
      await button(page, "Record").click();
      await button(page, "Stop").click();
      expect(await page.evaluate(() => window.splitsum!.recorder.state.kind)).toBe("idle");
    });

    /** What browsers without a track processor do; the node begins with silence, and a busy machine may break in once. */
    test("by a script node, where a browser has nothing better", async () => {
      const { page } = await open(bench, {}, "delete window.MediaStreamTrackProcessor;");
      await button(page, "Use an audio input").click();
      await page.getByRole("radio", { name: "none" }).check();
      await recordedForSomeTime(page);
      const { sides } = await recorded(page);
      const parts = [0, 1, 2, 3].map((n) => sides[0].subarray(n * 8192, (n + 1) * 8192));
      expect(Math.min(...parts.map((part) => largestDifference(heard[0], part)))).toBeLessThan(6e-5);
    });
    const recordedForSomeTime = async (page: Page) => {
      await button(page, "Record").click();
      await recordedFor(page, 0.8);
      await button(page, "Stop").click();
      await page
        .locator("#take .recorded")
        .getByText(/^Recorded:/)
        .waitFor();
    };

    test("where the browser refuses, it says why, and what to do instead", async () => {
      const { page } = await open(bench);
      const refusal = async (name: string | null) => {
        await page.evaluate((error) => {
          const { mediaDevices } = navigator;
          if (error === null) Object.defineProperty(navigator, "mediaDevices", { value: undefined });
          else mediaDevices.getUserMedia = () => Promise.reject(new DOMException("no", error));
          return window.splitsum!.input.open();
        }, name);
        return page.locator("#take .sound-input").getByRole("alert").textContent();
      };
      const else_ = / Or record with any recorder, .* drop the file on this page/;
      for (const [name, words] of [
        ["NotAllowedError", /did not give the permission\. Allow the microphone/],
        ["NotFoundError", /No audio input was found\. Plug the interface in/],
        ["NotReadableError", /gives no sound: another program may have it/],
        [null, /does not let a page that was opened from a file listen/],
      ] as const) {
        const said = await refusal(name);
        expect(said).toMatch(words);
        expect(said).toMatch(else_);
        expect(await button(page, "Ask again").isVisible()).toBe(true);
      }
      // Of the test tone another way is told (here folded away: there is no unit); dropped on the page it would be a take.
      const tone = page.locator("#measure .sound-input > .fault");
      expect(await tone.textContent()).toMatch(/ Or use the command line: splitsum capture tone/);
      expect(await axeFindings(page, "#take")).toEqual([]);
    });
  },
  fakeInputFlags(microphone),
);

describeInChromium(
  "recording without permission",
  (open) => {
    test("the browser's own no is told", async () => {
      const { page } = await open(join(folder, "bench.html"));
      await page.locator("#take").getByRole("button", { name: "Use an audio input" }).click();
      await page
        .locator("#take")
        .getByText(/did not give the permission/)
        .waitFor();
    });
  },
  ["--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream=deny"],
);
