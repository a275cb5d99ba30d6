import { expect, test } from "vitest";
import { loudnessRangeLu } from "../../src/sound/measure/loudnessRange.js";
import { levels, rates } from "../sound/measure/testTones.js";
import { expectWithin } from "../within.js";

/**
 * EBU Tech 3342 v4 (2023), Table 1, cases 1 to 4: a stereo 1 kHz tone, 20 s at each level; the standard allows 1 LU.
 * Cases 5 and 6 are recordings of the EBU's, which may not be handed on: they are not checked here.
 */
test.each([
  [1, [-20, -30], 10],
  [2, [-20, -15], 5],
  [3, [-40, -20], 20],
  [4, [-50, -35, -20, -35, -50], 15],
])("loudness range, Tech 3342 case %i", (_case, peaksDbfs, expectedLu) => {
  for (const rateHz of rates) {
    const tone = levels(
      peaksDbfs.map((peakDbfs) => [20, peakDbfs] as const),
      rateHz,
    );
    expectWithin(loudnessRangeLu([tone, tone], rateHz), expectedLu, 1, "LU");
    // essentia.js 0.1.3, another implementation, prints 9.9997, 4.9998, 20.0000 and 14.9995 at 48 kHz.
    expectWithin(loudnessRangeLu([tone, tone], rateHz), expectedLu, 0.01, "LU");
  }
});

/** Tech 3342: the gates are -70 LUFS, and 20 LU below the mean power of what is above that (here -21.25 LUFS). */
test.each([
  [-20, -40, 20],
  [-20, -42, 0],
  [-60, -69, 9],
  [-60, -71, 0],
])("a minute at %d and 20 s at %d dBFS range over %d LU", (loudDbfs, quietDbfs, expectedLu) => {
  const tone = levels(
    [
      [60, loudDbfs],
      [20, quietDbfs],
    ],
    48_000,
  );
  expectWithin(loudnessRangeLu([tone, tone], 48_000), expectedLu, 0.02, "LU");
});

test("no range below 3 s and in silence", () => {
  const tone = levels([[2.9, -20]], 48_000);
  expect(loudnessRangeLu([tone, tone], 48_000)).toBeNull();
  expect(loudnessRangeLu([new Float32Array(240_000)], 48_000)).toBeNull();
});
