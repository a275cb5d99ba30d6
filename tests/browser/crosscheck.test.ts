import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { expect, test } from "vitest";
import type { Jacks, Rig } from "../../src/rig/model/rig.js";
import { routingIds } from "../../src/rig/routings/routing.js";
import type { SettingValue } from "../../src/sound/dsp/kernel.js";
import type { CrosscheckedRouting } from "../../src/work/crosscheck/crosscheck.js";
import { pedal, rigOf } from "../rigs.js";
import { noise } from "../signals.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { describeInChromium } from "./chromium.js";

const settings: string = "../../src/build/pageBundle.mjs";
const { pageBundle } = await import(/* @vite-ignore */ settings);

const rateHz = 48_000;
const sounds = {
  take: [...noise({ seed: 4, frames: rateHz / 2, rms: 0.1 })],
  response: [...noise({ seed: 5, frames: 9600, rms: 0.1 })].map((x, n) => x * Math.exp(-n / 2000)),
  rateHz,
  fft: [
    ...readFileSync(
      createRequire(import.meta.url)
        .resolve("@echogarden/pffft-wasm/simd")
        .replace(/\.js$/, ".wasm"),
    ),
  ],
};

type Case = readonly [string, Jacks, Readonly<Record<string, SettingValue>>];
const still: readonly Case[] = [
  ["boost", "mono", { gainDb: 6 }],
  ["tone", "stereo", { bassDb: 9, trebleDb: -6 }],
  ["speaker", "mono", {}],
  ["delay", "mono", { delayMs: 430, feedback: 0, mix: 1 }],
  ["delay", "mono", { delayMs: 6, feedback: 0.9, toneHz: 4000 }],
  ["delay", "mono-to-stereo", { delayMs: 60, feedback: 0.6, pingPong: true, rightDelayRatio: 1.3 }],
  ["response", "mono", { file: "one" }],
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

/** Targets: -100 dBFS RMS where nothing swings, -80 where something does. */
describeInChromium("the engine against the browser's own OfflineAudioContext", (open) => {
  const check = async (rigs: readonly Rig[]): Promise<readonly (readonly CrosscheckedRouting[])[]> => {
    const file = join(temporaryFolder(), "check.html");
    writeFileSync(file, "<!doctype html><title>check</title>");
    const { page, complaints } = await open(file, {}, await script());
    const found = await page.evaluate(
      ([given, which]) => window.crosscheckHere?.(given, which) ?? Promise.reject(new Error("no script")),
      [sounds, rigs] as const,
    );
    expect(complaints).toEqual([]);
    return found;
  };

  test("every model that standard nodes make", async () => {
    const cases = [...still, ...swinging];
    const found = await check(
      cases.map(([model, jacks, settings]) => rigOf([pedal("Box", model, jacks, settings)])),
    );
    found.forEach(([{ skipped, rmsDbfs }], n) => {
      const what = `${cases[n][0]} ${JSON.stringify(cases[n][2])}`;
      expect({ what, skipped }).toEqual({ what, skipped: null });
      expect(rmsDbfs ?? -200, what).toBeLessThan(n < still.length ? -100 : -80);
    });
  });

  test("every routing of a vibrato, a ping-pong delay and a response", async () => {
    const [found] = await check([
      rigOf([
        pedal("Swing", "vibrato", "mono-to-stereo", { mix: 0.5, lfoHz: 0.9 }, { latencyMs: 1.21 }),
        pedal("Echo", "delay", "stereo", { delayMs: 60, pingPong: true, toneHz: 4500 }),
        pedal("Tank", "response", "mono", { file: "one" }, { latencyMs: 0.9, invertsPolarity: true }),
      ]),
    ]);
    expect(found).toHaveLength(routingIds.length);
    for (const { id, skipped, withinTarget } of found) {
      expect({ id, skipped, withinTarget }).toEqual({ id, skipped: null, withinTarget: true });
    }
  });
});

/** The cross-check as one script for a page. */
async function script(): Promise<string> {
  const { outputFiles = [] } = await build({
    ...pageBundle,
    entryPoints: [fileURLToPath(new URL("crosscheckHere.ts", import.meta.url))],
    write: false,
  });
  return outputFiles[0].text;
}
