import { expect, test } from "vitest";
import { expectWithin } from "../../within.js";
import { reverbLaws } from "./reverbLaws.js";
import { echoDensity, firstSound, responseOf } from "./reverbs.js";

reverbLaws("plate");

test("the pre-delay is silence of that length in front", () => {
  const [early] = responseOf({ model: "plate" });
  const [late] = responseOf({ model: "plate", settings: { preDelayMs: 40 } });
  expect(firstSound(late) - firstSound(early)).toBe(0.04 * 48_000);
});

/** Abel and Huang 2006: 1 is what Gaussian noise has. */
test("its tail becomes as dense as noise", () => {
  const [left] = responseOf({ model: "plate" });
  for (const at of [0.4, 0.6, 1]) expectWithin(echoDensity(left, at, 48_000), 1, 0.15);
});

test("with less diffusion its first echoes are sparser", () => {
  const [smeared, bare] = [1, 0].map((diffusion) =>
    echoDensity(responseOf({ model: "plate", settings: { diffusion } })[0], 0.1, 48_000),
  );
  expect(bare).toBeLessThan(0.7 * smeared);
});
