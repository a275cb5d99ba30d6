import { expect, test } from "vitest";
import { RealAnalysisFft } from "../../../src/sound/dsp/realAnalysisFft.js";
import { fitPhaseSlope } from "../../../src/work/capture/phaseSlope.js";
import { crossSpectrum, emptySpectrum, spectrumOf } from "../../../src/work/capture/sweepSpectrum.js";
import { noise } from "../../signals.js";
import { expectWithin } from "../../within.js";

/** Closed form: a delay of d frames turns bin k by -2 pi k d / N. */
test.each([0, 0.3, -0.45, 0.5])("delay of %d frames, either polarity", (delayFrames) => {
  const size = 1024;
  const fft = new RealAnalysisFft(size);
  const a = spectrumOf(noise({ seed: 7, frames: size }), fft);
  for (const sign of [1, -1]) {
    const b = emptySpectrum(size);
    for (let k = 0; k < size / 2; k++) {
      const angle = (-2 * Math.PI * k * delayFrames) / size;
      b.re[k] = sign * (a.re[k] * Math.cos(angle) - a.im[k] * Math.sin(angle));
      b.im[k] = sign * (a.re[k] * Math.sin(angle) + a.im[k] * Math.cos(angle));
    }
    const fit = fitPhaseSlope(crossSpectrum(a, b, 48_000, [100, 20_000]), 0);
    expectWithin(fit.delayFrames, delayFrames, 1e-7, "frames");
    expectWithin(fit.agreement, sign, 1e-9);
  }
});

test("nothing shared: no agreement, and no delay made of it", () => {
  expect(fitPhaseSlope(emptySpectrum(64), 0)).toEqual({ delayFrames: 0, agreement: 0 });
});
