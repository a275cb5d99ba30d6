import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import fc from "fast-check";
import { beforeAll, expect, test } from "vitest";
import type { Jacks, Rig } from "../../../src/rig/model/rig.js";
import { routingIds } from "../../../src/rig/routings/routing.js";
import type { SettingValue } from "../../../src/sound/dsp/kernel.js";
import { rounding } from "../../../src/sound/standard/nearness.js";
import type { CrosscheckedRouting } from "../../../src/work/crosscheck/crosscheck.js";
import { runsOf } from "../../longForm.js";
import { anyRig } from "../../rig/file/anyRig.js";
import { pedal, rigOf } from "../../rigs.js";
import { noise } from "../../signals.js";
import { temporaryFolder } from "../../temporaryFolder.js";
import { demoNames, demoRig } from "../../work/crosscheck/demoRig.js";
import { faults, faulty, faultyRateHz, rigFor } from "../../work/crosscheck/faults.js";
import { chromium } from "./chromiumKind.js";
import type { Checked } from "./crosscheckHere.js";
import { describeIn } from "./describeIn.js";
import { firefox } from "./firefox.js";
import type { Tab } from "./tab.js";

const settings: string = "../../../src/build/pageBundle.mjs";
const { pageBundle } = await import(/* @vite-ignore */ settings);

const fft = [
  ...readFileSync(
    createRequire(import.meta.url)
      .resolve("@echogarden/pffft-wasm/simd")
      .replace(/\.js$/, ".wasm"),
  ),
];

/** Noise of -17 dBFS, and a response. */
const soundsAt = (rateHz: number, seconds: number) => ({
  take: [...noise({ seed: 4, frames: seconds * rateHz, rms: 0.1 })],
  response: [...noise({ seed: 5, frames: rateHz / 5, rms: 0.1 })].map(
    (x, n) => x * Math.exp((-24 * n) / rateHz),
  ),
  rateHz,
  fft,
});

type Case = readonly [string, Jacks, Readonly<Record<string, SettingValue>>];
const still: readonly Case[] = [
  ["boost", "mono", { gainDb: 6 }],
  ["tone", "stereo", { bassDb: 9, trebleDb: -6 }],
  ["speaker", "mono", {}],
  ["delay", "mono", { delayMs: 430, feedback: 0, mix: 1 }],
  ["delay", "mono", { delayMs: 6, feedback: 0.9, toneHz: 4000 }],
  ["delay", "mono-to-stereo", { delayMs: 60, feedback: 0.6, pingPong: true, rightDelayRatio: 1.3 }],
  ["response", "mono", { file: "one" }],
  ["plate", "stereo", { excursionMs: 0 }],
  ["hall", "mono-to-stereo", { excursionMs: 0 }],
  ["phaser", "mono", { sweepOctaves: 0, feedback: 0.5 }],
];
const swinging: readonly Case[] = [
  ["vibrato", "mono-to-stereo", { depthMs: 1.8, lfoHz: 0.9, mix: 0.5 }],
  ["chorus", "mono-to-stereo", { voices: 3, secondOutput: "inverted-wet" }],
  ["chorus", "mono-to-stereo", { feedback: 0.7, delayMs: 9.07, depthMs: 7.94 }],
  ["flanger", "mono-to-stereo", {}],
  ["tremolo", "mono-to-stereo", { phaseDegrees: 30 }],
  ["tremolo", "mono-to-stereo", { wave: "triangle", phaseDegrees: 200 }],
  ["tremolo", "mono-to-stereo", { law: "equal-power", depth: 1 }],
  ["phaser", "mono-to-stereo", {}],
];

/** Targets: -100 dBFS RMS where nothing swings, -90 where something does, and the limits, which are nearer. */
for (const kind of [chromium, firefox]) {
  describeIn(kind, "the engine against the browser's own OfflineAudioContext", (started) => {
    let tab: Tab;
    beforeAll(async () => {
      const file = join(temporaryFolder(), "check.html");
      writeFileSync(file, `<!doctype html><title>check</title><script>${await script()}</script>`);
      tab = await (await started()).open(file);
    });
    const check = (sounds: ReturnType<typeof soundsAt>, jobs: readonly Checked[]) =>
      tab.run(
        ([given, which]) => window.crosscheckHere?.(given, which) ?? Promise.reject(new Error("no script")),
        [sounds, jobs] as const,
      );
    const whole = (rig: Rig): Checked => ({ rig, fault: null });

    const expectNear = (found: readonly CrosscheckedRouting[], what: string, dbfs: number) => {
      for (const routing of found) {
        expect(routing, `${what}: ${JSON.stringify(routing)}`).toMatchObject({
          skipped: null,
          withinTarget: true,
        });
        expect(routing.rmsDbfs ?? -200, `${what}, ${routing.id}`).toBeLessThan(dbfs);
      }
    };

    test("every model", async () => {
      const cases = [...still, ...swinging];
      const rigs = cases.map(([model, jacks, values]) => rigOf([pedal("Box", model, jacks, values)]));
      const found = await check(soundsAt(48_000, 0.5), rigs.map(whole));
      found.forEach(([asGiven], n) => {
        expectNear([asGiven], JSON.stringify(cases[n]), n < still.length ? -100 : -90);
      });
    });

    test("every routing of a vibrato, a ping-pong delay and a response", async () => {
      const rig = rigOf([
        pedal("Swing", "vibrato", "mono-to-stereo", { mix: 0.5, lfoHz: 0.9 }, { latencyMs: 1.21 }),
        pedal("Echo", "delay", "stereo", { delayMs: 60, pingPong: true, toneHz: 4500 }),
        pedal("Tank", "response", "mono", { file: "one" }, { latencyMs: 0.9, invertsPolarity: true }),
      ]);
      const [found] = await check(soundsAt(48_000, 0.5), [whole(rig)]);
      expect(found).toHaveLength(routingIds.length);
      expectNear(found, "with a response", -90);
    });

    test("any rig that validates is within its limits", async () => {
      // As plain data: what fast-check makes has no prototype, and Firefox takes none such.
      const rigs: readonly Rig[] = JSON.parse(
        JSON.stringify(fc.sample(anyRig(4), { seed: 7, numRuns: runsOf(8) })),
      );
      const found = (await check(soundsAt(44_100, 0.2), rigs.map(whole))).flat();
      const compared = found.filter(({ skipped }) => skipped === null);
      expect(compared.length).toBeGreaterThan(10);
      for (const routing of compared) expect(routing.withinTarget, JSON.stringify(routing)).toBe(true);
    });

    test.each(demoNames)("%s: no routing is skipped", async (name) => {
      const [found] = await check(soundsAt(48_000, 0.4), [whole(demoRig(name))]);
      expect(found.length).toBeGreaterThanOrEqual(routingIds.length);
      expectNear(found, name, found[0].targetBy === rounding.why ? -100 : -90);
    });

    test.each(demoNames)("%s: a fault of one line is told, each by itself", async (name) => {
      const rig = demoRig(name);
      const possible = Object.entries(faults).filter(([, fault]) => faulty(rig, fault).length > 0);
      const jobs = possible.map(([what, fault]) => ({ rig: rigFor(fault, rig), fault: what }));
      const found = await check(soundsAt(faultyRateHz, 0.2), jobs);
      expect(possible.length).toBeGreaterThan(5);
      found.forEach((each, n) => {
        expect(each.length).toBeGreaterThan(0);
        for (const { id, rmsDbfs, targetDbfs, withinTarget } of each)
          expect({ what: possible[n][0], id, rmsDbfs, targetDbfs, withinTarget }).toMatchObject({
            withinTarget: false,
          });
      });
    });
  });
}

/** The cross-check as one script for a page. */
async function script(): Promise<string> {
  const { outputFiles = [] } = await build({
    ...pageBundle,
    entryPoints: [fileURLToPath(new URL("crosscheckHere.ts", import.meta.url))],
    write: false,
  });
  return outputFiles[0].text.replaceAll("</script", "<\\/script");
}
