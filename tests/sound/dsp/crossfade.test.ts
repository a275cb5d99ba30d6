import { expect, test } from "vitest";
import { Crossfade } from "../../../src/sound/dsp/crossfade.js";
import { noise } from "../../signals.js";
import { expectWithin } from "../../within.js";

const frames = 1000;
const [before, after] = [1, 2].map((seed) => noise({ seed, frames }));

function run(startFrame: number, fadeFrames: number, block: number, inputs = [before, after]): Float32Array {
  const fade = new Crossfade(startFrame, fadeFrames);
  const out = new Float32Array(frames);
  for (let at = 0; at < frames; at += block) {
    const count = Math.min(block, frames - at);
    fade.process(
      inputs.map((input) => input.subarray(at)),
      [out.subarray(at)],
      count,
    );
  }
  return out;
}

test("one input until the fade, the other from its end, to the bit", () => {
  const out = run(300, 200, 64);
  expect(out.slice(0, 300)).toEqual(before.slice(0, 300));
  expect(out.slice(500)).toEqual(after.slice(500));
});

/** Closed form: w = (1 - cos(pi t)) / 2 is 0 at the start, 0.5 in the middle. */
test("between them a raised cosine", () => {
  const out = run(300, 200, 1000, [new Float32Array(frames), new Float32Array(frames).fill(1)]);
  expect(out[300]).toBe(0);
  expectWithin(out[400], 0.5, 1e-7);
  expectWithin(out[350], 0.5 - 0.5 * Math.cos(Math.PI / 4), 1e-7);
});

test("likes stay as they are; without a fade it is a cut; blocks of any size agree to the bit", () => {
  expect(run(300, 200, 64, [before, before])).toEqual(before);
  const cut = run(300, 0, 64);
  expect([cut[299], cut[300]]).toEqual([before[299], after[300]]);
  for (const block of [1, 7, 511]) expect(run(300, 200, block)).toEqual(run(300, 200, 1000));
});
