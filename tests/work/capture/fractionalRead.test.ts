import { expect, test } from "vitest";
import { readAt, readStretched } from "../../../src/work/capture/fractionalRead.js";
import { noise, sine } from "../../signals.js";
import { expectWithin } from "../../within.js";

/** Closed form: a sine read between its frames is the sine there. */
test.each([100, 5_000, 15_000, 20_000])("a sine of %d Hz, read between frames", (frequencyHz) => {
  const rateHz = 48_000;
  const tone = Float64Array.from({ length: 4000 }, (_, n) =>
    Math.sin((2 * Math.PI * frequencyHz * n) / rateHz),
  );
  const stretch = 1 + 73e-6;
  const read = readStretched(tone, 100.37, stretch, 3000);
  for (let n = 0; n < read.length; n++) {
    const expected = Math.sin((2 * Math.PI * frequencyHz * (100.37 + n * stretch)) / rateHz);
    expectWithin(read[n], expected, 3e-5, `at frame ${n}`);
  }
});

test("whole positions give the frames themselves, and outside there is silence", () => {
  const signal = noise({ seed: 5, frames: 50 });
  expect(Array.from(readStretched(signal, -3, 1, 60))).toEqual([0, 0, 0, ...signal, 0, 0, 0, 0, 0, 0, 0]);
  expect(readAt(sine({ frequencyHz: 100, rateHz: 1000, lengthSeconds: 1 }), 5000.5)).toBe(0);
});
