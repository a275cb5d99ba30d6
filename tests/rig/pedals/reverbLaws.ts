import { expect, test } from "vitest";
import { correlation } from "../../../src/sound/measure/correlation.js";
import { impulse, noise } from "../../signals.js";
import { expectWithin } from "../../within.js";
import { energyOf, octave, responseOf } from "./reverbs.js";
import { wetOf } from "./runPedal.js";

/** What each of the reverberators must do, whatever its kind: laws, and the levels that they promise. */
export function reverbLaws(model: string): void {
  test("one output is the left of two, not a sum", () => {
    const [mono] = responseOf({ model, jacks: [1, 1] });
    const [left] = responseOf({ model, jacks: [1, 2] });
    expect(mono).toEqual(left);
  });

  test("equal sounds on both inputs give what one input gives", () => {
    expect(responseOf({ model, jacks: [2, 2] })).toEqual(responseOf({ model, jacks: [1, 2] }));
  });

  /** Unrelated Gaussian tails of N samples correlate by 1 / sqrt(N), 0.003 here; resonances in common raise that. */
  test("left and right have nothing in common", () => {
    const [left, right] = responseOf({ model });
    expectWithin(correlation(left, right), 0, 0.08);
    expectWithin(correlation(left.subarray(24_000), right.subarray(24_000)), 0, 0.12);
  });

  /** Law: what is linear may be taken apart by inputs. */
  test("each input adds its own sound", () => {
    const both = responseOf({ model, jacks: [2, 2] });
    const left = responseOf({ model, jacks: [2, 2], clickOn: "left" });
    const right = responseOf({ model, jacks: [2, 2], clickOn: "right" });
    for (const o of [0, 1]) {
      const off = both[o].map((sample, n) => sample - left[o][n] - right[o][n]);
      expect(Math.sqrt(energyOf(off) / energyOf(both[o]))).toBeLessThan(1e-5);
    }
  });

  /** Early sound says where a source is; 80 ms is where ISO 3382-1 divides early from late. */
  test("early sound is louder on the side that it came from", () => {
    const early = (clickOn: "left" | "right") =>
      responseOf({ model, jacks: [2, 2], clickOn, seconds: 0.08 }).map(energyOf);
    const [left, right] = early("left");
    expect(left).toBeGreaterThan(1.5 * right);
    const [farLeft, farRight] = early("right");
    expect(farRight).toBeGreaterThan(1.5 * farLeft);
  });

  /** Energies of unrelated echoes add: the promise of unit energy, 0 dB, holds to 1.5 dB in the octave of 500 Hz. */
  test.each([0.5, 2, 6])("wet is as loud as dry at a decay of %d s", (decaySeconds) => {
    for (const rateHz of [44_100, 96_000]) {
      const outputs = responseOf({
        model,
        settings: { decaySeconds },
        rateHz,
        seconds: 1.5 * decaySeconds + 0.5,
      });
      const dry = energyOf(octave(impulse(rateHz), 500, rateHz));
      for (const output of outputs) {
        expectWithin(10 * Math.log10(energyOf(octave(output, 500, rateHz)) / dry), 0, 1.5, "dB");
      }
    }
  });

  test("the longest block that there is gives the same bits as the shortest", () => {
    const input = [noise({ seed: 4, frames: 70_000 })];
    const whole = wetOf({ model, input, outputs: 2, blockFrames: 65_536 });
    for (const blockFrames of [1, 7, 511, 4096]) {
      expect(wetOf({ model, input, outputs: 2, blockFrames })).toEqual(whole);
    }
  });
}
