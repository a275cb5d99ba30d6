import FFT from "fft.js";
import { beforeAll, expect, test } from "vitest";
import { Convolution } from "../../../src/sound/dsp/convolution.js";
import { initialiseFft } from "../../../src/sound/dsp/fft.js";
import { impulse, noise } from "../../signals.js";

beforeAll(() => initialiseFft());

/** Closed form: y[n] = sum h[m] x[n - m], summed one by one in double precision. */
test.each([1, 2, 63, 64, 65, 128, 129, 700, 2049, 5000])("%i taps agree with the direct sum", (taps) => {
  const x = noise({ seed: taps, frames: 3000, rms: 0.2 });
  const h = noise({ seed: taps + 1, frames: taps, rms: 1 / Math.sqrt(taps) });
  const [y] = run([[h]], [x], 1024);
  expect(largestDifference(y, directSum(x, h))).toBeLessThan(2e-6);
});

/** Independent library: fft.js in double precision, one transform over everything. Longest stages included. */
test("a 3 s response agrees with one large transform by fft.js", () => {
  const x = noise({ seed: 11, frames: 200_000, rms: 0.2 });
  const h = noise({ seed: 12, frames: 144_000, rms: 1 / Math.sqrt(144_000) });
  const [y] = run([[h]], [x], 4096);
  expect(largestDifference(y, oneTransform(x, h))).toBeLessThan(2e-6);
});

test("block sizes agree to the bit", () => {
  const x = noise({ seed: 1, frames: 40_000, rms: 0.2 });
  const h = noise({ seed: 2, frames: 18_000, rms: 0.01 });
  const [whole] = run([[h]], [x], 40_000);
  for (const block of [1, 7, 64, 511, 1024]) expect(run([[h]], [x], block)[0]).toEqual(whole);
});

/** An impulse passes at once: no latency, and the response comes out as it went in. */
test("gives the response to an impulse, from its first frame on", () => {
  const h = noise({ seed: 4, frames: 9000, rms: 0.1 });
  const [y] = run([[h]], [impulse(9000)], 100);
  expect(largestDifference(y, Float64Array.from(h))).toBeLessThan(1e-7);
});

test("four responses join two inputs to two outputs", () => {
  const h = [1, 2, 3, 4].map((seed) => noise({ seed, frames: 1500, rms: 0.03 }));
  const [left, right] = [8, 9].map((seed) => noise({ seed, frames: 3000 }));
  const y = run([h.slice(0, 2), h.slice(2)], [left, right], 333);
  for (const o of [0, 1]) {
    const [a, b] = [directSum(left, h[2 * o]), directSum(right, h[2 * o + 1])];
    expect(
      largestDifference(
        y[o],
        a.map((value, n) => value + b[n]),
      ),
    ).toBeLessThan(1e-6);
  }
});

test("an empty response joins nothing, and zeros in front are only a delay", () => {
  const x = noise({ seed: 6, frames: 12_000 });
  const h = noise({ seed: 7, frames: 400, rms: 0.05 });
  const late = new Float32Array(4096 + 400);
  late.set(h, 4096);
  const [alone] = run([[h, new Float32Array(0)]], [x, x], 256);
  const [delayed] = run([[late]], [x], 256);
  expect(largestDifference(delayed.subarray(4096), Float64Array.from(alone))).toBeLessThan(1e-6);
  expect(delayed.subarray(0, 4096).every((sample) => sample === 0)).toBe(true);
});

test("silence in, silence out; and sound dies when the response has run out", () => {
  const h = noise({ seed: 8, frames: 3000 });
  const [quiet] = run([[h]], [new Float32Array(9000)], 512);
  expect(quiet.every((sample) => sample === 0)).toBe(true);
  const x = new Float32Array(40_000);
  x.set(noise({ seed: 9, frames: 1000 }));
  expect(
    run([[h]], [x], 512)[0]
      .subarray(20_000)
      .every((sample) => sample === 0),
  ).toBe(true);
});

function run(responses: Float32Array[][], inputs: Float32Array[], block: number): Float32Array[] {
  const kernel = new Convolution(responses);
  const frames = inputs[0].length;
  const outputs = responses.map(() => new Float32Array(frames));
  for (let at = 0; at < frames; at += block) {
    const end = Math.min(frames, at + block);
    kernel.process(
      inputs.map((input) => input.subarray(at, end)),
      outputs.map((output) => output.subarray(at, end)),
      end - at,
    );
  }
  return outputs;
}

function directSum(x: Float32Array, h: Float32Array): Float64Array {
  return Float64Array.from(x, (_, n) => {
    let y = 0;
    for (let m = 0; m <= Math.min(n, h.length - 1); m++) y += h[m] * x[n - m];
    return y;
  });
}

function oneTransform(x: Float32Array, h: Float32Array): Float64Array {
  const size = 2 ** Math.ceil(Math.log2(x.length + h.length));
  const fft = new FFT(size);
  const spectrum = (signal: Float32Array) => {
    const interleaved = new Float64Array(2 * size);
    signal.forEach((sample, n) => {
      interleaved[2 * n] = sample;
    });
    const out = new Float64Array(2 * size);
    fft.transform(out, interleaved);
    return out;
  };
  const [X, H] = [spectrum(x), spectrum(h)];
  const product = new Float64Array(2 * size);
  for (let k = 0; k < size; k++) {
    product[2 * k] = X[2 * k] * H[2 * k] - X[2 * k + 1] * H[2 * k + 1];
    product[2 * k + 1] = X[2 * k] * H[2 * k + 1] + X[2 * k + 1] * H[2 * k];
  }
  const y = new Float64Array(2 * size);
  fft.inverseTransform(y, product);
  return Float64Array.from(x, (_, n) => y[2 * n]);
}

function largestDifference(a: Float32Array, b: Float64Array): number {
  return a.reduce((worst, sample, n) => Math.max(worst, Math.abs(sample - b[n])), 0);
}
