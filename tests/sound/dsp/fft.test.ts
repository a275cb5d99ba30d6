import { beforeAll, expect, test } from "vitest";
import { FftMemory, fftHeap, initialiseFft, RealFft } from "../../../src/sound/dsp/fft.js";
import { noise } from "../../signals.js";
import { expectWithin } from "../../within.js";

beforeAll(() => initialiseFft());

/** Law: forward and back gives the signal times its length; single precision carries 24 bits. */
test.each([32, 128, 4096, 32_768])("forward and back gives %i times the input", (size) => {
  const fft = new RealFft(size);
  const { place } = new FftMemory(2 * size);
  const signal = noise({ seed: 3, frames: size, rms: 0.3 });
  fftHeap().set(signal, place);
  fft.forward(place, place + size);
  fft.inverse(place + size, place);
  for (let n = 0; n < size; n++) expectWithin(fftHeap()[place + n] / size, signal[n], 1e-6);
});

/** Closed form: circular convolution with an impulse at frame d moves a signal round by d frames. */
test("multiplying spectra convolves", () => {
  const size = 256;
  const fft = new RealFft(size);
  const { place } = new FftMemory(5 * size);
  const [signal, shift, a, b, sum] = [0, 1, 2, 3, 4].map((k) => place + k * size);
  const x = noise({ seed: 5, frames: size });
  fftHeap().set(x, signal);
  fftHeap()[shift + 100] = 0.5;
  fft.forward(signal, a);
  fft.forward(shift, b);
  fft.multiplyAdd(a, b, sum);
  fft.inverse(sum, signal);
  for (let n = 0; n < size; n++) {
    expectWithin(fftHeap()[signal + ((n + 100) % size)], 0.5 * x[n], 1e-6);
  }
});

test("memory is zero, even where it was used before and after it grew", () => {
  for (let k = 0; k < 40; k++) {
    const { place } = new FftMemory(1 << 18);
    const floats = fftHeap().subarray(place, place + (1 << 18));
    expect(floats.every((float) => float === 0)).toBe(true);
    floats.fill(1);
  }
});

test.each([0, 16, 48, 100, 3.5])("refuses size %d, which would abort the library", (size) => {
  expect(() => new RealFft(size)).toThrow(RangeError);
});
