import { expect, test } from "vitest";
import { noiseParts } from "../../../src/work/proof/hum.js";
import { noise, sine } from "../../signals.js";
import { expectWithin } from "../../within.js";

const rateHz = 48_000;

/** Closed form: a sine of peak A has an RMS of A / sqrt 2, so -3.01 dB to its peak; powers of unlike signals add. */
test.each([50, 60] as const)("%i Hz and its third harmonic are hum, the rest is hiss", (mainsHz) => {
  const lengthSeconds = 1.7;
  const first = sine({ frequencyHz: mainsHz, rateHz, lengthSeconds, peakDbfs: -50 });
  const third = sine({ frequencyHz: 3 * mainsHz, rateHz, lengthSeconds, peakDbfs: -56 });
  const hiss = noise({ seed: 3, frames: first.length, rms: 10 ** (-60 / 20) });
  const found = noiseParts(
    first.map((x, n) => x + third[n] + hiss[n]),
    rateHz,
  );
  expect(found.mainsHz).toBe(mainsHz);
  expectWithin(Number(found.humDbfs), 10 * Math.log10(10 ** -5.301 + 10 ** -5.901), 0.3, "dBFS");
  expectWithin(Number(found.hissDbfs), -60, 0.5, "dBFS");
});

test("hiss alone has no hum worth telling, silence has neither", () => {
  const found = noiseParts(noise({ seed: 4, frames: 2 * rateHz, rms: 1e-3 }), rateHz);
  expect(found.humDbfs ?? -200).toBeLessThan(-75);
  expectWithin(Number(found.hissDbfs), -60, 0.2, "dBFS");
  const nothing = { humDbfs: null, mainsHz: null, hissDbfs: null };
  expect(noiseParts(new Float32Array(rateHz), rateHz)).toEqual(nothing);
  expect(noiseParts(new Float32Array(100), rateHz)).toEqual(nothing);
});
