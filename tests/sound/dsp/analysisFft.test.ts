import { expect, test } from "vitest";
import { AnalysisFft, fftSizeFor } from "../../../src/sound/dsp/analysisFft.js";
import { noise } from "../../signals.js";
import { expectWithin } from "../../within.js";

/** The definition itself, summed term by term: X[k] = sum x[n] e^(-2 pi i k n / N). */
test.each([2, 8, 32])("forward is the sum of the definition, %i points", (size) => {
  const re = Float64Array.from(noise({ seed: 1, frames: size }));
  const im = Float64Array.from(noise({ seed: 2, frames: size }));
  const [gotRe, gotIm] = [re.slice(), im.slice()];
  new AnalysisFft(size).forward(gotRe, gotIm);
  for (let k = 0; k < size; k++) {
    let [sumRe, sumIm] = [0, 0];
    for (let n = 0; n < size; n++) {
      const angle = (-2 * Math.PI * k * n) / size;
      sumRe += re[n] * Math.cos(angle) - im[n] * Math.sin(angle);
      sumIm += re[n] * Math.sin(angle) + im[n] * Math.cos(angle);
    }
    expectWithin(gotRe[k], sumRe, 1e-12);
    expectWithin(gotIm[k], sumIm, 1e-12);
  }
});

test("inverse undoes forward", () => {
  const re = Float64Array.from(noise({ seed: 3, frames: 1024 }));
  const im = Float64Array.from(noise({ seed: 4, frames: 1024 }));
  const [backRe, backIm] = [re.slice(), im.slice()];
  const fft = new AnalysisFft(1024);
  fft.forward(backRe, backIm);
  fft.inverse(backRe, backIm);
  for (let n = 0; n < 1024; n++) {
    expectWithin(backRe[n], re[n], 1e-13);
    expectWithin(backIm[n], im[n], 1e-13);
  }
});

test("sizes: powers of two only, and the next one up", () => {
  expect(() => new AnalysisFft(12)).toThrow(/power of two/);
  expect([1, 2, 3, 1024, 1025].map(fftSizeFor)).toEqual([2, 2, 4, 1024, 2048]);
});
