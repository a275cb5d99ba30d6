import { expect, test } from "vitest";
import { alignText } from "../../src/words/captureText.js";
import type { AlignedFiles } from "../../src/work/capture/captured.js";

const sound = { file: "loop.wav", sha256: "00", notices: [] };
const found = (confidence: number): AlignedFiles => ({
  schemaVersion: 1,
  dry: sound,
  looped: sound,
  latencyMs: 0.006,
  latencyFrames: 0.28,
  invertsPolarity: false,
  gainDb: -7.8,
  latencyFramesWithin: [-17, 5],
  gainDbWithin: [-10, -1],
  follows: 0.8,
  confidence,
  otherLag: null,
  filter: null,
  spectralMatchDb: 4,
  leakNotchesHz: [],
  rigLines: [],
  cautions: [],
});

test("a latency that is not sure does not say what dry sound would meet", () => {
  expect(alignText(found(0.9), 200)).toContain("would meet no late copy");
  expect(alignText(found(0.01), 200)).not.toContain("would meet no late copy");
  expect(alignText(found(0.01), 200)).toContain("is not known: the latency is not sure");
});

test("lines for the rig file are given only where they are to be trusted", () => {
  const lines = { rigLines: ["latencyMs: 3.1"] };
  expect(alignText({ ...found(0.9), ...lines }, 200)).toContain("For the rig file:\n  latencyMs: 3.1");
  expect(alignText({ ...found(0.01), ...lines }, 200)).not.toContain("latencyMs: 3.1");
  expect(alignText({ ...found(0.01), ...lines }, 200)).toContain("No lines for the rig file");
});
