import { expect, test } from "vitest";
import { measuredCsv, measuredText } from "../../src/words/measuredText.js";
import type { MeasuredFile } from "../../src/work/recordings/measured.js";
import { measures, monoMeasures } from "./reports.js";

const recording = (file: string, changes: Partial<MeasuredFile> = {}): MeasuredFile => ({
  file,
  sha256: "00",
  rateHz: 48_000,
  frames: 96_000,
  channels: 2,
  notices: [],
  measures: measures(),
  ...changes,
});
const long = "sessions/2024-11-03/through the real boxes/parallel with the mixer at unity.wav";
const measured = {
  schemaVersion: 1 as const,
  reference: "a.wav",
  recordings: [
    recording("a.wav", { frames: 480_000, measures: measures({ balanceDb: -12.3, truePeakDbtp: -14.2 }) }),
    recording(long, { notices: ["the sound is clipped"] }),
    recording("m.wav", { channels: 1, rateHz: 44_100, measures: monoMeasures }),
    recording("m2.wav", { channels: 1, measures: monoMeasures }),
  ],
};

test.each([80, 100])("long names are wrapped within %i columns and nothing is cut", (columns) => {
  const text = measuredText(measured, columns);
  for (const line of text.split("\n").filter((row) => !row.includes(long))) {
    expect(line.length, line).toBeLessThanOrEqual(columns);
  }
  const end = text.indexOf("length") - 2;
  const firstColumn = text
    .split("\n\n")[0]
    .split("\n")
    .map((line) => line.slice(3, end).trim())
    .join("");
  expect(firstColumn.replaceAll(" ", "")).toContain(long.replaceAll(" ", ""));
});

test("figures that there is no room for are left out from the end, and named", () => {
  const text = measuredText(measured, 60);
  for (const line of text.split("\n")) expect(line.length, line).toBeLessThanOrEqual(60);
  expect(text).toMatch(/^Left out for want of room: (\w+[\w ]*, )*true peak; see --csv\.$/m);
  expect(measuredText(measured, 80)).not.toContain("for want of room");
});

test("one remark for all recordings that it holds of; rates that differ are told", () => {
  const text = measuredText(measured, 100);
  expect(text).toContain("m.wav, m2.wav: one channel, so there is no width to measure.");
  expect(text).toMatch(/unity\.wav: the sound is\s+clipped\./);
  expect(text).toContain("The sample rates differ: 48 kHz, 44.1 kHz.");
});

test("CSV has a row a recording", () => {
  const lines = measuredCsv(measured).trimEnd().split("\r\n");
  expect(lines).toHaveLength(5);
  expect(lines[0]).toMatch(/^schemaVersion,file,sha256,rateHz,frames,channels,isReference,correlation,/);
  expect(lines[1]).toMatch(/^1,a\.wav,00,48000,480000,2,true,0\.62,/);
});
