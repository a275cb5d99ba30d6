import { expect, test } from "vitest";
import { differenceOf } from "../../../src/work/crosscheck/difference.js";
import { sine } from "../../signals.js";
import { expectWithin } from "../../within.js";

const tone = sine({ frequencyHz: 1000, rateHz: 48_000, lengthSeconds: 1, peakDbfs: -40 });
const nothing = new Float32Array(tone.length);

/** Closed form: a full-scale sine is 0 dBFS, in peak and in RMS; on one channel of two its power is half. */
test("a tone against silence", () => {
  const both = differenceOf([tone, tone], [nothing, nothing]);
  expectWithin(both.rmsDbfs!, -40, 1e-4, "dBFS");
  expectWithin(both.peakDbfs!, -40, 1e-4, "dBFS");
  expectWithin(
    differenceOf([tone, nothing], [nothing, nothing]).rmsDbfs!,
    -40 - 10 * Math.log10(2),
    1e-4,
    "dBFS",
  );
});

test("likes have none; what is no number is not alike", () => {
  expect(differenceOf([tone], [tone])).toEqual({ rmsDbfs: null, peakDbfs: null });
  const broken = tone.slice();
  broken[7] = Number.NaN;
  expect(differenceOf([tone], [broken]).rmsDbfs).toBe(Number.POSITIVE_INFINITY);
  expect(() => differenceOf([tone], [nothing.subarray(1)])).toThrow(RangeError);
});
