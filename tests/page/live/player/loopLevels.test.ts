import { expect, test } from "vitest";
import { loopGainsDb } from "../../../../src/page/live/player/loopLevels.js";
import { integratedLufs } from "../../../../src/sound/measure/loudness.js";
import { noise } from "../../../signals.js";
import { expectWithin } from "../../../within.js";

const rateHz = 48_000;
const frames = rateHz;
const sound = (seed: number, rms: number) => noise({ seed, frames, rms });
const sounds = [
  { id: "loud", sides: [sound(1, 0.2), sound(2, 0.2)] },
  { id: "soft", sides: [sound(3, 0.05), sound(4, 0.05)] },
  { id: "mono", sides: [sound(5, 0.1), sound(5, 0.1)] },
  { id: "silent", sides: [new Float32Array(frames), new Float32Array(frames)] },
];
/** As the whole take was matched: wrong for the loop. */
const matchedDb = new Map([
  ["loud", -3],
  ["soft", 4],
  ["mono", 0],
  ["silent", -1],
]);

/** By the published loudness of what is heard: ITU-R BS.1770-5. */
test.each([false, true])(
  "within a loop all have one loudness, and none is turned up (folded %s)",
  (folded) => {
    const gains = loopGainsDb(sounds, rateHz, matchedDb, folded);
    const heard = sounds.slice(0, 3).map(({ id, sides: [left, right] }) => {
      const mono = left.map((x, n) => (x + right[n]) / 2);
      return integratedLufs(folded ? [mono, mono] : [left, right], rateHz)! + gains.get(id)!;
    });
    for (const lufs of heard) expectWithin(lufs, heard[0], 1e-6, "LU");
    for (const [id, whole] of matchedDb) expect(gains.get(id), id).toBeLessThanOrEqual(whole + 1e-9);
    expect(gains.get("silent")).toBe(-1);
  },
);
