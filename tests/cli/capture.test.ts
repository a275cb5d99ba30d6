import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import { readClip } from "../../src/node/audio/readClip.js";
import { writeClip } from "../../src/node/audio/writeClip.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { expectWithin } from "../within.js";
import { guitar } from "../work/capture/guitars.js";
import { decayingNoise, playThrough } from "../work/capture/simulatedLoop.js";
import { run } from "./run.js";

const cwd = temporaryFolder();
const toneWords = ["--length", "1.5", "--gap", "0.8", "--lead-in", "0.3"];
const t60Seconds = 0.4;

/** The tone as written by the command, through a reverb 37.3 frames late and a recorder 50 ppm fast. */
beforeAll(async () => {
  const made = await run(["capture", "tone", "tone.wav", ...toneWords], { cwd });
  expect(made).toMatchObject({ status: 0, err: "" });
  const tone = await readClip(join(cwd, "tone.wav"), { allowTruncated: false });
  const response = decayingNoise({ t60Seconds, rateHz: 48_000, lengthSeconds: 0.6, seed: 8 });
  const reverb = { response, latencyFrames: 37.3, driftPpm: 50, noiseDbfs: -80, lateFrames: 4800 };
  const recorded = playThrough(tone.channels[0], reverb, 48_000);
  writeClip(join(cwd, "recorded.wav"), recorded, { bits: 24, force: false });
  const dry = await guitar("guit_harmonics");
  const loop = playThrough(dry.channels[0], { latencyFrames: 61.74, gainDb: -3, inverts: true }, dry.rateHz);
  writeClip(join(cwd, "dry.wav"), dry, { bits: 24, force: false });
  writeClip(join(cwd, "looped.wav"), loop, { bits: 24, force: false });
});

const json = (text: string): Record<string, unknown> => JSON.parse(text);

test("capture tone: a WAV and its description, cautions, what to do next; nothing replaced unasked", async () => {
  const { channels, rateHz } = await readClip(join(cwd, "tone.wav"), { allowTruncated: false });
  expect(rateHz).toBe(48_000);
  const described = json(readFileSync(join(cwd, "tone.json"), "utf8"));
  expect(described).toMatchObject({ schemaVersion: 1, tone: { lengthSeconds: 1.5, gapSeconds: 0.8 } });
  expectWithin(channels[0].length / rateHz, Number(described.lengthSeconds), 1e-4, "s");
  const again = await run(["capture", "tone", "tone.wav"], { cwd });
  expect({ status: again.status, out: again.out }).toEqual({ status: 2, out: "" });
  expect(again.err).toMatch(/exists already.*--force.*nothing was written/);
  const told = await run(["capture", "tone", "tone.wav", ...toneWords, "--force"], { cwd });
  expect(told.out).toMatch(/Hearing:/);
  expect(told.out).toMatch(/Equipment:/);
  expect(told.out).toMatch(/capture response RECORDING --tone tone\.json/);
});

test("capture response: the facts, the file, and the lines for the rig", async () => {
  const { status, out, err } = await run(["capture", "response", "recorded.wav", "--tone", "tone.json"], {
    cwd,
  });
  expect({ status, err }).toEqual({ status: 0, err: "" });
  expect(out).toMatch(/^recorded\.response\.wav: 1 channel, 48000 Hz, 0\.\d+ s, 32-bit float/);
  expect(out).toMatch(/Recorder against player: \+50\.00 ppm, taken out/);
  expect(out).toMatch(/can stand for the unit as it was set/);
  expect(out).toContain('settings: { file: "recorded.response.wav", levelled: false');
  for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(100);
  const written = await readClip(join(cwd, "recorded.response.wav"), { allowTruncated: false });
  expectWithin(Math.sqrt(written.channels[0].reduce((sum, x) => sum + x * x, 0)), 0.9, 0.1);
});

test("capture response --json: plain numbers, settings from words in place of a description", async () => {
  const words = ["capture", "response", "recorded.wav", ...toneWords, "--out", "other.wav", "--json"];
  const { status, out } = await run(words, { cwd });
  expect(status).toBe(0);
  const found = json(out) as { driftPpm: number; channels: { t30Seconds: number }[]; response: object };
  expect(found).toMatchObject({
    schemaVersion: 1,
    standsForUnit: true,
    latencyAgainst: "start of the recording",
  });
  expectWithin(found.driftPpm, 50, 0.05, "ppm");
  expectWithin(found.channels[0].t30Seconds / t60Seconds, 1, 0.02);
  expect(found.response).toMatchObject({ file: "other.wav", rateHz: 48_000, channels: 1 });
  expect(existsSync(join(cwd, "other.wav"))).toBe(true);
});

test("capture align: latency, polarity and gain, as text and as JSON", async () => {
  const told = await run(["capture", "align", "dry.wav", "looped.wav"], { cwd });
  expect(told).toMatchObject({ status: 0, err: "" });
  expect(told.out).toMatch(/latency {2,}1\.400 ms, 61\.74 frames/);
  expect(told.out).toMatch(/polarity {2,}inverted/);
  expect(told.out).toContain("invertsPolarity: true");
  expect(told.out).toMatch(/notched at 714, 1429, 2143, 2857, 3571 Hz/);
  const { out } = await run(["capture", "align", "dry.wav", "looped.wav", "--json"], { cwd });
  const found = json(out);
  expectWithin(Number(found.latencyFrames), 61.74, 0.01, "frames");
  expectWithin(Number(found.gainDb), -3, 0.01, "dB");
  expect(found).toMatchObject({ schemaVersion: 1, invertsPolarity: true, dry: { file: "dry.wav" } });
  expect(Number(found.confidence)).toBeGreaterThan(0.9);
});

/** Where a response of its own name is there already. */
const elsewhere = (words: readonly string[]): string[] =>
  words[0] === "response" && !words.includes("--out") ? ["--out", "new.wav"] : [];

/** One clear line on standard error, status 2, nothing written. */
test.each([
  [
    ["response", "dry.wav", "--tone", "tone.json"],
    /^dry\.wav: the recording is at 44100 Hz, the tone at 48000 Hz/,
  ],
  [["response", "missing.wav"], /^missing\.wav: there is no such file/],
  [
    ["response", "recorded.wav", "--tone", "recorded.wav"],
    /^recorded\.wav: is no description of a tone: it is larger than 1 MB.*capture tone/,
  ],
  [["response", "recorded.wav", "--tone", "list.json"], /^list\.json: describes no tone/],
  [["response", "recorded.wav"], /^recorded\.wav: the recording does not hold this test tone/],
  [
    ["response", "recorded.wav", "--tone", "tone.json", "--reference-channel", "left"],
    /^recorded\.wav: a reference needs a stereo/,
  ],
  [["tone", "sweep.flac"], /^sweep\.flac: is no name for a WAV file/],
  [["tone", "new.wav", "--level", "3"], /Write a number of dBFS from -60 to -1/],
  [["tone", "new.wav", "--rate", "16000"], /toHz is 20000; at 16000 Hz a sweep can reach 7840 Hz/],
  [["align", "dry.wav", "recorded.wav"], /the loop is at 48000 Hz, the dry take at 44100 Hz/],
])("capture %j", async (words, says) => {
  writeFileSync(join(cwd, "list.json"), "[1, 2]");
  const { status, out, err } = await run(["capture", ...words, ...elsewhere(words)], { cwd });
  expect({ status, out }).toEqual({ status: 2, out: "" });
  expect(err).toMatch(says);
  for (const file of ["new.wav", "new.json", "sweep.json"]) expect(existsSync(join(cwd, file))).toBe(false);
});
