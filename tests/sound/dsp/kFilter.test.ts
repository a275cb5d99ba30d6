import { expect, test } from "vitest";
import type { BiquadCoefficients } from "../../../src/sound/dsp/biquad.js";
import { KFilter } from "../../../src/sound/dsp/kFilter.js";
import { kWeighting } from "../../../src/sound/dsp/kWeighting.js";
import { impulse, noise } from "../../signals.js";

const inputs = [noise({ seed: 1, frames: 5000 }), noise({ seed: 2, frames: 5000 })];

/** The difference equation itself, direct form, one stage after the other: another order of the same sums. */
test.each([8_000, 48_000, 192_000])("it filters as its coefficients say, at %i Hz", (rateHz) => {
  const { shelf, highPass } = kWeighting(rateHz);
  const outputs = filtered(rateHz, inputs, 5000);
  for (const c of [0, 1]) {
    const expected = direct(direct(Float64Array.from(inputs[c]), shelf), highPass);
    for (let n = 0; n < 5000; n++) expect(Math.abs(outputs[c][n] - expected[n])).toBeLessThan(1e-7);
  }
});

test.each([1, 7, 64, 511])("blocks of %i give the same bits", (size) => {
  expect(filtered(48_000, inputs, size)).toEqual(filtered(48_000, inputs, 5000));
});

test("silence becomes silence", () => {
  const [output] = filtered(48_000, [impulse(200_000), new Float32Array(200_000)], 4096);
  expect(output.subarray(0, 100).every((x) => x !== 0)).toBe(true);
  expect(output.subarray(100_000).every((x) => x === 0)).toBe(true);
});

function filtered(rateHz: number, channels: readonly Float32Array[], size: number): Float32Array[] {
  const filter = new KFilter(rateHz);
  const frames = channels[0].length;
  const outputs = channels.map(() => new Float32Array(frames));
  for (let from = 0; from < frames; from += size) {
    const cut = (channel: Float32Array) => channel.subarray(from, from + size);
    filter.process(channels.map(cut), outputs.map(cut), Math.min(size, frames - from));
  }
  return outputs;
}

function direct(x: Float64Array, { b0, b1, b2, a1, a2 }: BiquadCoefficients): Float64Array {
  const y = new Float64Array(x.length);
  for (let n = 0; n < x.length; n++) {
    y[n] =
      b0 * x[n] + b1 * (x[n - 1] ?? 0) + b2 * (x[n - 2] ?? 0) - a1 * (y[n - 1] ?? 0) - a2 * (y[n - 2] ?? 0);
  }
  return y;
}
