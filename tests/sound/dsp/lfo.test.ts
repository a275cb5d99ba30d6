import { expect, test } from "vitest";
import { Lfo } from "../../../src/sound/dsp/lfo.js";
import { expectWithin } from "../../within.js";

/** The oscillator against sin(2 pi f n/rate + phase) itself, to the millionth frame. */
test.each([0.02, 0.9, 20])("sine at %f Hz", (lfoHz) => {
  const rateHz = 44_100;
  const values = take(new Lfo(lfoHz, rateHz, 77), 1_000_000);
  let worst = 0;
  for (let n = 0; n < values.length; n++) {
    const expected = Math.sin((2 * Math.PI * lfoHz * n) / rateHz + (77 * Math.PI) / 180);
    worst = Math.max(worst, Math.abs(values[n] - expected));
  }
  expect(worst).toBeLessThan(1e-9);
});

/** The triangle is (2/pi) asin(sin): closed form. */
test("triangle", () => {
  const rateHz = 8000;
  const values = take(new Lfo(3.3, rateHz, 200, "triangle"), 20_000);
  for (let n = 0; n < values.length; n += 7) {
    const phase = (2 * Math.PI * 3.3 * n) / rateHz + (200 * Math.PI) / 180;
    expectWithin(values[n], (2 / Math.PI) * Math.asin(Math.sin(phase)), 1e-9);
  }
});

test("runs end where they must, whatever is asked for", () => {
  const whole = take(new Lfo(2, 8000, 0), 1000);
  for (const piece of [1, 7, 128, 200]) expect(take(new Lfo(2, 8000, 0), 1000, piece)).toEqual(whole);
});

function take(lfo: Lfo, frames: number, piece = 512): Float64Array {
  const out = new Float64Array(frames);
  for (let done = 0; done < frames; ) {
    const run = lfo.ready(Math.min(piece, frames - done));
    out.set(lfo.values.subarray(lfo.at, lfo.at + run), done);
    lfo.at += run;
    done += run;
  }
  return out;
}
