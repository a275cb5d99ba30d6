import { expect, test } from "vitest";
import { AnalysisFft } from "../../../src/sound/dsp/analysisFft.js";
import { RealAnalysisFft } from "../../../src/sound/dsp/realAnalysisFft.js";
import { noise } from "../../signals.js";
import { expectWithin } from "../../within.js";

/** The complex transform, itself checked against the sum of its definition. */
test.each([4, 8, 64, 2048])(
  "bins 0 to N/2 are those of the complex transform, and back, %i points",
  (size) => {
    const signal = Float64Array.from(noise({ seed: size, frames: size }));
    const [wholeRe, wholeIm] = [signal.slice(), new Float64Array(size)];
    new AnalysisFft(size).forward(wholeRe, wholeIm);
    const [re, im] = [new Float64Array(size / 2 + 1), new Float64Array(size / 2 + 1)];
    const fft = new RealAnalysisFft(size);
    fft.forward(signal, re, im);
    for (let k = 0; k <= size / 2; k++) {
      expectWithin(re[k], wholeRe[k], 1e-12, `re ${k}`);
      expectWithin(im[k], wholeIm[k], 1e-12, `im ${k}`);
    }
    const back = new Float64Array(size);
    fft.inverse(re, im, back);
    for (let n = 0; n < size; n++) expectWithin(back[n], signal[n], 1e-14, `frame ${n}`);
  },
);

test("inverse leaves its spectrum as it was", () => {
  const [re, im] = [new Float64Array([1, 2, 3]), new Float64Array([0, 1, 0])];
  new RealAnalysisFft(4).inverse(re, im, new Float64Array(4));
  expect([...re, ...im]).toEqual([1, 2, 3, 0, 1, 0]);
});
