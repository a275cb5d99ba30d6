import { expect, test } from "vitest";
import { longestFlightSeconds } from "../../../src/sound/dsp/hallDesign.js";
import { expectWithin } from "../../within.js";
import { reverbLaws } from "./reverbLaws.js";
import { echoDensity, firstSound, responseOf } from "./reverbs.js";

reverbLaws("hall");

test("the pre-delay is silence of that length in front", () => {
  const [early] = responseOf({ model: "hall", settings: { preDelayMs: 0, excursionMs: 0 } });
  const [late] = responseOf({ model: "hall", settings: { preDelayMs: 40, excursionMs: 0 } });
  expect(firstSound(late) - firstSound(early)).toBe(0.04 * 48_000);
});

/** Abel and Huang 2006: 1 is what Gaussian noise has. */
test("a tenth of a second after its start it is as dense as noise", () => {
  const [left] = responseOf({ model: "hall", settings: { preDelayMs: 0 } });
  for (const at of [0.12, 0.2, 0.5, 1]) expectWithin(echoDensity(left, at, 48_000), 1, 0.15);
});

/** The shortest line comes first: a 3.2th of the longest, within its place in the row of twelve. */
test.each([8, 24, 60])("a room of %d m sounds after its shortest flight", (sizeMetres) => {
  const [left] = responseOf({ model: "hall", settings: { preDelayMs: 0, sizeMetres } });
  const shortest = longestFlightSeconds(sizeMetres) * 3.2 ** (0.5 / 12 - 1);
  expectWithin(firstSound(left) / 48_000 / shortest, 1, 0.03);
});
