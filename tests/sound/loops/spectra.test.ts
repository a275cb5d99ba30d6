import fc from "fast-check";
import { expect, test } from "vitest";
import { AnalysisFft } from "../../../src/sound/dsp/analysisFft.js";
import { RealAnalysisFft } from "../../../src/sound/dsp/realAnalysisFft.js";
import { type StereoSpectrum, stereoSpectrum } from "../../../src/sound/measure/spectrum.js";
import { byBoth, firstDifference, roughNoise } from "./twins.js";

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
