import { writeFileSync } from "node:fs";
import { join as path } from "node:path";
import { expect, test } from "vitest";
import { readClip } from "../../src/node/audio/readClip.js";
import { openWav } from "../../src/node/audio/wavWriter.js";
import { encodeWav } from "../../src/sound/audio/encodeWav.js";
import { sine } from "../signals.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { expectWithin } from "../within.js";

/**
 * Rounding to steps of LSB leaves an error of LSB^2 / 12 (uniform over one step: closed form). Triangular dither of
 * two steps adds 2 x LSB^2 / 12, so the error is LSB^2 / 4, 4.77 dB more, and its mean and power no longer follow the
 * signal: Lipshitz, Wannamaker and Vanderkooy, "Quantization and Dither: A Theoretical Survey", JAES 40(5), 1992.
 */
async function storedBy(how: "openWav" | "encodeWav", channels: readonly Float32Array[], bits: 16 | 24) {
  const file = path(temporaryFolder(), "a.wav");
  if (how === "encodeWav") writeFileSync(file, encodeWav({ rateHz: 48_000, channels }, bits));
  else {
    const wav = openWav(file, { rateHz: 48_000, channels: channels.length, bits });
    wav.write(channels, channels[0].length, 1);
    wav.close();
  }
  return (await readClip(file, { allowTruncated: false })).channels;
}

const errorsInLsb = (stored: Float32Array, samples: Float32Array, bits: number) =>
  Float64Array.from(stored, (x, n) => (x - samples[n]) * 2 ** (bits - 1));
const mean = (values: Float64Array) => values.reduce((sum, x) => sum + x, 0) / values.length;
const power = (values: Float64Array) => mean(values.map((x) => x * x));
const correlation = (a: Float64Array, b: Float64Array) =>
  mean(a.map((x, n) => x * b[n])) / Math.sqrt(power(a) * power(b));

/** 997 Hz: a tone that no short run of samples repeats, as measurement practice asks. Common practice, no source. */
const tone = sine({ frequencyHz: 997, rateHz: 48_000, lengthSeconds: 10, peakDbfs: -1 });

test("24 bits: LSB^2 / 12, so 146.3 dB below a full-scale sine", async () => {
  // 36 dB down, where single precision is 256 times finer than the steps of 24 bits.
  const quiet = tone.map((x) => x / 64);
  const [stored] = await storedBy("openWav", [quiet], 24);
  const error = power(errorsInLsb(stored, quiet, 24));
  expectWithin(error * 12, 1, 0.02, "of LSB^2 / 12");
  // 6.0206 N + 1.7609 dB at N = 24, closed form.
  expectWithin(10 * Math.log10(0.5 / (error / 2 ** 46)), 146.26, 0.1, "dB");
});

test.each(["openWav", "encodeWav"] as const)(
  "16 bits by %s: LSB^2 / 4, so 93.3 dB below a full-scale sine",
  async (how) => {
    const [stored] = await storedBy(how, [tone], 16);
    const error = power(errorsInLsb(stored, tone, 16));
    expectWithin(error * 4, 1, 0.02, "of LSB^2 / 4");
    // 6.0206 N + 1.7609 - 4.7712 dB at N = 16, closed form.
    expectWithin(10 * Math.log10(0.5 / (error / 2 ** 30)), 93.32, 0.1, "dB");
  },
);

test("a tone of a quarter LSB, which rounding alone would lose, is kept", async () => {
  const faint = tone.map((x) => (x * 0.25) / 32_768);
  const [stored] = await storedBy("openWav", [faint], 16);
  const [a, b] = [stored, faint].map((samples) => Float64Array.from(samples, (x) => x * 32_768));
  expectWithin(mean(a.map((x, n) => x * b[n])) / power(b), 1, 0.05, "of the faint tone");
});

test("mean and power of the error do not follow the signal: steady levels between two steps", async () => {
  for (const partOfLsb of [0, 0.25, 0.5, 0.8]) {
    const level = new Float32Array(480_000).fill(partOfLsb / 32_768);
    const [stored] = await storedBy("openWav", [level], 16);
    const errors = errorsInLsb(stored, level, 16);
    expectWithin(mean(errors), 0, 0.004, "LSB");
    expectWithin(power(errors) * 4, 1, 0.02, "of LSB^2 / 4");
  }
});

/** Unrelated noises of N samples: correlation 0 with a deviation of 1 / sqrt(N), closed form; here 0.0014. */
test("the two sides of a silent file carry unrelated dither", async () => {
  const silence = new Float32Array(480_000);
  const [left, right] = await storedBy("openWav", [silence, silence], 16);
  expectWithin(correlation(Float64Array.from(left), Float64Array.from(right)), 0, 0.006);
});

test("the dither is white: unrelated to itself one, two and seven samples on", async () => {
  const [stored] = await storedBy("openWav", [new Float32Array(480_000)], 16);
  const values = Float64Array.from(stored);
  for (const lag of [1, 2, 7]) {
    expectWithin(correlation(values.slice(lag), values.slice(0, -lag)), 0, 0.006);
  }
  expect(new Set(values)).toEqual(new Set([-1, 0, 1].map((k) => k / 32_768)));
});
