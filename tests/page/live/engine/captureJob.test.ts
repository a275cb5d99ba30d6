import { expect, test } from "vitest";
import { readCapture } from "../../../../src/page/live/engine/captureJob.js";
import { toneSettingsOf } from "../../../../src/work/capture/toneSettings.js";

test("a recording that cannot be used comes back as words, not as an error", () => {
  const tone = toneSettingsOf({ lengthSeconds: 0.5, gapSeconds: 0.4, repeats: 1, rateHz: 44_100 });
  const recording = { rateHz: 44_100, channels: [new Float32Array(44_100)] };
  expect(readCapture({ kind: "capture", recording, tone, words: {} })).toEqual({
    refused: expect.stringMatching(/holds no sound \(zeros only\)/),
  });
});
