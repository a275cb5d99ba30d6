import { expect, test } from "vitest";
import { reelText } from "../../../src/words/reelText.js";
import { reelOf, spanFrames } from "../../../src/work/compare/reel.js";

const rateHz = 1000;
const ones = (frames: number) => new Float32Array(frames).fill(1);

test("choices follow each other with a rest between, faded where they are cut, and the list says when", () => {
  const reel = reelOf(
    [
      { label: "Dry take", channels: [ones(2000)] },
      { label: "Reverb first", channels: [ones(2000), ones(2000).map((x) => -x)] },
    ],
    rateHz,
  );
  expect(reel.cues).toEqual([
    { frame: 0, label: "Dry take" },
    { frame: 2800, label: "Reverb first" },
  ]);
  expect(reelText(reel)).toBe("0:00.0  Dry take\n0:02.8  Reverb first\n");
  const [left, right] = reel.clip.channels;
  expect(left.length).toBe(4800);
  expect([left[0], left[5], left[10], left[1999], left[2400], left[2800], left[3000]]).toEqual([
    0, 0.5, 1, 0, 0, 0, 1,
  ]);
  expect([right[1000], right[3000]]).toEqual([1, -1]);
});

test("minutes are told as minutes, and a span ends with the sound", () => {
  const parts = ["a", "b"].map((label) => ({ label, channels: [ones(64_000)] }));
  expect(reelText(reelOf(parts, rateHz))).toBe("0:00.0  a\n1:04.8  b\n");
  expect(spanFrames({ fromSeconds: 2, toSeconds: 12 }, rateHz, 5000)).toEqual({ from: 2000, to: 5000 });
});
