import { writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { beforeAll, expect, test } from "vitest";
import { parse } from "yaml";
import { readClip } from "../../src/node/audio/readClip.js";
import { captureResponse } from "../../src/node/capture/captureJobs.js";
import { benchPage } from "../../src/node/page/benchPage.js";
import { encodeWav } from "../../src/sound/audio/encodeWav.js";
import { dbToGain } from "../../src/sound/dsp/units.js";
import { withoutOptions } from "../../src/words/captureWords.js";
import { makeTone } from "../../src/work/capture/makeTone.js";
import { noise } from "../signals.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { decayingNoise, playThrough } from "../work/capture/simulatedLoop.js";
import { axeFindings } from "./axe.js";
import { describeInChromium } from "./chromium.js";
import { fakeInputFlags, fakePieceFrames, fakeRateHz as rateHz, writeFakeInput } from "./fakeInput.js";
import { recordInstead } from "./recorder.js";

const folder = temporaryFolder();
const microphone = join(folder, "microphone.wav");
const bench = join(folder, "bench.html");
const rigFile = join(folder, "rig.yaml");
const tone = { lengthSeconds: 0.5, gapSeconds: 0.4, repeats: 1, levelDbfs: -12 };
const words = { referenceChannel: "right", mix: 1 } as const;

/** 2.5 ms late, turned over, dry sound left at -20 dB, 9 ms ahead of a tail of 0.2 s. */
const tail = decayingNoise({ t60Seconds: 0.2, rateHz, lengthSeconds: 0.25, seed: 5 });
const unit = {
  response: [dbToGain(-20), ...new Array(400).fill(0), ...tail.map((x) => 0.25 * x)],
  latencyFrames: 0.0025 * rateHz,
  inverts: true,
};

/** What unit and cable answer to the tone, as somebody records it who starts a second early. */
function answer(): readonly Float32Array[] {
  const [sound] = makeTone({ ...tone, rateHz }).clip.channels;
  const loop = { earlyFrames: rateHz, noiseDbfs: -80, latencyFrames: 271 };
  const late = loop.latencyFrames + unit.latencyFrames;
  const length = Math.ceil((rateHz + sound.length) / fakePieceFrames) * fakePieceFrames;
  return [
    playThrough(sound, { ...loop, ...unit, latencyFrames: late, seed: 6 }, rateHz),
    playThrough(sound, { ...loop, seed: 7, lateFrames: 1000 }, rateHz),
  ].map(({ channels: [samples] }) => samples.slice(0, length));
}

/** Longer than any silence within the tone, and shorter than the one ahead of it. */
const silenceMs = 800;

describeInChromium(
  "measuring a unit on the page",
  (open) => {
    beforeAll(async () => {
      writeFakeInput(microphone, answer());
      const take = join(folder, "short.wav");
      const dry = { rateHz: 16_000, channels: [noise({ seed: 1, frames: 8000, rms: 0.1 })] };
      writeFileSync(take, encodeWav(dry, 24));
      writeFileSync(
        rigFile,
        "name: A\npedals:\n  - { name: Weir, model: tremolo, jacks: mono-to-stereo }\n  - { name: Tank, model: spring, jacks: mono, settings: { mix: 0.4 }, price: 90 }\n",
      );
      const { html } = await benchPage({ rigFile, takeFiles: [take], examples: [], tailSeconds: 1 });
      writeFileSync(bench, html);
    });

    const button = (page: Page, name: string) =>
      page.locator("#measure").getByRole("button", { name, exact: true });
    const field = (page: Page, name: string) => page.locator("#measure").getByLabel(name, { exact: true });
    const setUp = async (page: Page) => {
      await button(page, "Use an audio input").click();
      await field(page, "A plain cable comes in on").selectOption("channel 2");
      await page.locator("#measure").getByText("More of the tone").click();
      for (const [name, value] of [
        ["Tone, peak level of the sweep, dBFS", tone.levelDbfs],
        ["Tone, length of one sweep, s", tone.lengthSeconds],
        ["Tone, silence after every mark and sweep; longer than the unit rings, s", tone.gapSeconds],
        ["Tone, sweeps, one after the other", tone.repeats],
      ] as const) {
        const number = page.locator("#measure").getByRole("spinbutton", { name, exact: true });
        await number.fill(String(value));
        await number.press("Tab");
      }
    };

    /** The file goes round and round: the tone is asked for while it is silent, ahead of its answer. */
    const playInSilence = (page: Page) =>
      page.evaluate(
        (leastMs) =>
          new Promise<void>((resolve) => {
            let quietSince = performance.now();
            const look = () => {
              const loud = window.splitsum!.input.levels.some(({ peakDbfs }) => (peakDbfs ?? -99) > -60);
              if (loud) quietSince = performance.now();
              if (performance.now() - quietSince < leastMs) return requestAnimationFrame(look);
              document.querySelector<HTMLElement>("#measure .cautions button")?.click();
              resolve();
            };
            look();
          }),
        silenceMs,
      );

    test("finds what the command finds, and puts its lines into the rig", async () => {
      const { page, complaints } = await open(bench);
      await page.waitForFunction(() => window.splitsum?.progress === null);
      await setUp(page);
      await field(page, "mix that the unit is set to").fill("1");
      await playInSilence(page);
      const findings = await axeFindings(page, "#measure .working");
      const result = page.locator("#measure .capture-result");
      await result.getByText("What was found of Tank").waitFor();
      findings.push(...(await axeFindings(page, "#measure")));
      const lines = (await result.locator(".rig-lines").textContent())!.split("\n");
      // The same recording, and the file that the microphone heard, by the command.
      const own = join(folder, "own.wav");
      writeFileSync(own, await bytesOf(page, "recording"));
      const out = join(folder, "tank.response.wav");
      const command = (file: string) =>
        captureResponse(file, { ...tone, rateHz }, { ...words, out, force: true });
      const { rigLines, statements } = await command(own);
      expect(lines).toEqual(rigLines);
      // A busy machine's fake device is late at times, and the page tells it.
      const said = await result.getByRole("listitem").filter({ hasNotText: "lost sound" }).allTextContents();
      expect(said).toEqual(statements.map(withoutOptions));
      const here = join(folder, "here.wav");
      writeFileSync(here, await bytesOf(page, "response"));
      const [ours, theirs] = await Promise.all(
        [here, out].map((file) => readClip(file, { allowTruncated: false })),
      );
      expect(ours.channels[0].length).toBe(theirs.channels[0].length);
      const apart = ours.channels[0].map((x, n) => Math.abs(x - theirs.channels[0][n]));
      expect(Math.max(...apart)).toBeLessThan(1e-6);
      const asHeard = parse((await command(microphone)).rigLines.join("\n"));
      const found = parse(lines.join("\n"));
      expectClose(found, asHeard);
      const truth = { latencyMs: 2.5, invertsPolarity: true, canGoFullyWet: false, dryLeakDb: -20 };
      expectClose(found, { ...found, ...truth });
      await button(page, "Put it into the rig as Tank").click();
      await page.waitForFunction(() => window.splitsum!.desk.undoes === "Tank, as measured");
      const pedals = () => page.evaluate(() => (window.splitsum!.desk.data as { pedals: unknown[] }).pedals);
      const { settings, ...rest } = found;
      expect((await pedals())[1]).toEqual({
        name: "Tank",
        price: 90,
        ...rest,
        settings: { ...settings, mix: 0.4 },
      });
      await page.waitForFunction(
        () => window.splitsum!.report !== null && window.splitsum!.progress === null,
      );
      expect(await page.evaluate(() => [window.splitsum!.fault, window.splitsum!.soundFiles])).toEqual([
        null,
        ["tank.response.wav"],
      ]);
      await page.evaluate(() => window.splitsum!.desk.undo());
      expect(await pedals()).toContainEqual(expect.objectContaining({ model: "spring", price: 90 }));
      expect(findings).toEqual([]);
      expect(complaints).toEqual([]);
    });

    /** The page's output is rendered at once: the tone from its first frame on, stopped at half a second. */
    test("the first tone is soft, comes after the cautions alone, and ends 5 ms after it is stopped", async () => {
      const { page } = await open(bench, {}, recordInstead);
      await page.waitForFunction(() => window.splitsum?.progress === null);
      expect(await button(page, "Play the tone and record").isVisible()).toBe(false);
      await button(page, "Use an audio input").click();
      const cautions = await page.locator("#measure .cautions li").allTextContents();
      expect(cautions.join(" ")).toMatch(
        /headphones off and monitors down.*burn a tweeter.*qualified person/s,
      );
      await page.locator("#measure").getByText("More of the tone").click();
      const length = page.getByRole("spinbutton", { name: "Tone, length of one sweep, s" });
      await length.fill("0.5");
      await length.press("Tab");
      await button(page, "Play the tone and record").press("Enter");
      expect(await page.evaluate(() => document.activeElement?.textContent)).toBe("Stop the tone");
      const [left] = await page.evaluate((stopAt) => {
        window.recorder!.at(stopAt, () =>
          document.dispatchEvent(new KeyboardEvent("keydown", { key: "Escape" })),
        );
        return window.recorder!.run();
      }, stopSeconds);
      const out = new Float32Array(new Uint8Array(Buffer.from(left, "latin1")).buffer);
      const stopped = Math.ceil((stopSeconds + 0.006) * rateHz) + 128;
      const peak = (part: Float32Array) => part.reduce((most, x) => Math.max(most, Math.abs(x)), 0);
      expect(peak(out.subarray(0, stopped))).toBeGreaterThan(0.5 * dbToGain(-52));
      expect(peak(out)).toBeLessThanOrEqual(dbToGain(-40));
      expect(peak(out.subarray(stopped))).toBe(0);
      expect(await page.evaluate(() => window.splitsum!.capture.state.kind)).toBe("idle");
      expect(await page.evaluate(() => document.activeElement?.textContent)).toBe("Play the tone and record");
    });

    test("says what is wrong: one channel for both, a mix that is none, a recording that cannot be used", async () => {
      const { page } = await open(bench);
      await button(page, "Use an audio input").click();
      await field(page, "A plain cable comes in on").selectOption("channel 1");
      await button(page, "Play the tone and record").click();
      const alerts = page.locator("#measure").getByRole("alert");
      await alerts.getByText("Unit and cable come in on one channel").waitFor();
      await field(page, "A plain cable comes in on").selectOption("none");
      await field(page, "mix that the unit is set to").fill("7");
      await button(page, "Play the tone and record").click();
      await alerts.getByText('"7" is no mix that the unit is set to: it goes from 0.01 to 1').waitFor();
      expect(await page.evaluate(() => window.splitsum!.capture.state.kind)).toBe("idle");
      await page.evaluate(() => {
        const words = "the recording: its left side is dead, or take the right alone (--channel right).";
        Object.assign(window.splitsum!.capture, { state: { kind: "refused", words } });
        window.splitsum!.desk.edit("a name", [{ set: ["name"], to: "B" }]);
      });
      await alerts.getByText("take the right alone.").waitFor();
      expect(await button(page, "Save this recording").isVisible()).toBe(true);
      expect(await axeFindings(page, "#measure")).toEqual([]);
    });
  },
  fakeInputFlags(microphone),
);

/** Within a mark of the tone, which is 12 dB softer than its sweep. */
const stopSeconds = 1.46;

const bytesOf = async (page: Page, which: "recording" | "response"): Promise<Buffer> => {
  const letters = await page.evaluate(async (name) => {
    const file = window.splitsum!.capture[name]();
    const bytes = new Uint8Array(await file!.arrayBuffer());
    return bytes.reduce((text, byte) => text + String.fromCharCode(byte), "");
  }, which);
  return Buffer.from(letters, "latin1");
};

/** Words are the same; of two readings of one tone, numbers within 0.02 (ms, dB, s). */
function expectClose(found: unknown, wanted: unknown): void {
  if (typeof wanted === "number") expect(Math.abs(Number(found) - wanted)).toBeLessThan(0.02);
  else if (typeof wanted === "object" && wanted !== null) {
    expect(Object.keys(Object(found))).toEqual(Object.keys(wanted));
    for (const [key, value] of Object.entries(wanted)) expectClose(Reflect.get(Object(found), key), value);
  } else expect(found).toBe(wanted);
}
