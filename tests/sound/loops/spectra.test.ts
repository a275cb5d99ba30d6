import fc from "fast-check";
import { expect, test } from "vitest";
import { AnalysisFft } from "../../../src/sound/dsp/analysisFft.js";
import { RealAnalysisFft } from "../../../src/sound/dsp/realAnalysisFft.js";
import { type StereoSpectrum, stereoSpectrum } from "../../../src/sound/measure/spectrum.js";
import { byBoth, firstDifference, roomOf, roughNoise } from "./twins.js";

test("there is SIMD here, so that the twins are two", () => {
  const [plain, simd] = [roomOf("plain", 64), roomOf("simd", 64)];
  expect(simd.loops).not.toBe(plain.loops);
  expect(simd.doubles(1).buffer).not.toBe(plain.doubles(1).buffer);
});

test("an array of another memory is refused, not written over", () => {
  const room = roomOf("simd", 1024);
  const ask = () => room.loops.windowOne(new Float32Array(2), room.doubles(2), room.doubles(2));
  expect(ask).toThrow("of another memory");
});

test("a room gives no more than was asked for, and others keep theirs", () => {
  const room = roomOf("simd", 128);
  const other = roomOf("simd", 64);
  room.doubles(8);
  room.doubles(8);
  expect(() => room.doubles(1)).toThrow("asked for more");
  expect(other.doubles(8)).toEqual(new Float64Array(8));
});

const powers = fc.integer({ min: 1, max: 13 });

test("complex transforms there and back are the same to the bit", () => {
  fc.assert(
    fc.property(powers, fc.nat(), (power, seed) => {
      const size = 2 ** power;
      const { plain, simd } = byBoth(() => {
        const fft = new AnalysisFft(size);
        const [re, im] = [roughNoise(size, seed), roughNoise(size, seed + 1)];
        fft.forward(re, im);
        const there = [re.slice(), im.slice()];
        fft.inverse(re, im);
        return [...there, re, im];
      });
      expect(firstDifference(plain, simd)).toBeNull();
    }),
    { numRuns: 60 },
  );
});

test("real transforms are the same to the bit", () => {
  fc.assert(
    fc.property(powers, fc.nat(), (power, seed) => {
      const size = 2 ** (power + 1);
      const { plain, simd } = byBoth(() => {
        const fft = new RealAnalysisFft(size);
        const [re, im] = [new Float64Array(size / 2 + 1), new Float64Array(size / 2 + 1)];
        fft.forward(roughNoise(size, seed), re, im);
        return [re, im];
      });
      expect(firstDifference(plain, simd)).toBeNull();
    }),
    { numRuns: 60 },
  );
});

test.each([44_100, 8000, 192_000])(
  "spectra of both sides, of one and of none are the same to the bit at %i Hz",
  (rateHz) => {
    const noise = Float32Array.from(roughNoise(70_001, 5));
    const other = Float32Array.from(roughNoise(70_001, 6));
    const silence = new Float32Array(70_001);
    for (const [left, right] of [
      [noise, other],
      [noise, noise],
      [silence, other],
      [noise, silence],
    ]) {
      const { plain, simd } = byBoth(() => arraysOf(stereoSpectrum(left, right, rateHz)));
      expect(firstDifference(plain, simd)).toBeNull();
    }
  },
);

const arraysOf = ({ left, right, crossReal, crossImaginary, low }: StereoSpectrum) => [
  left,
  right,
  crossReal,
  crossImaginary,
  ...low.products,
];
