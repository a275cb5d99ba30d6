import { describe, expect, test } from "vitest";
import { loopHighPassHz } from "../../src/rig/pedals/delay.js";
import { dtft } from "../dtft.js";
import { soundOf, wetOf } from "../rig/pedals/runPedal.js";
import { impulse, sine } from "../signals.js";
import { expectWithin } from "../within.js";

const rateHz = 48_000;

/**
 * Feedback comb with a filter F in its loop: z^-D/(1 - g F z^-D). F is a high-pass g1 (1 - z^-1)/(1 - R z^-1),
 * R = exp(-2 pi f/rate), g1 = (1 + R)/2, then a low-pass k/(1 - (1 - k) z^-1), k = 1 - exp(-2 pi f/rate).
 * Source: J. O. Smith, Physical Audio Signal Processing, "Feedback comb filters"; the same author's "DC blocker".
 */
test.each([500, 3000, 20_000])("delay: the response of a filtered feedback comb, tone %i Hz", (toneHz) => {
  const [delayMs, feedback] = [10, 0.7];
  const [wet] = wetOf({
    model: "delay",
    settings: { delayMs, feedback, toneHz },
    input: [impulse(rateHz)],
    rateHz,
  });
  for (const hz of [20, 97, 150, 1000, 5020, 15_000]) {
    const [re, im] = combWithFilter(hz, 480, feedback, toneHz);
    const [gotRe, gotIm] = dtft(wet, hz, rateHz);
    expectWithin(gotRe, re, 2e-4, `real part at ${hz} Hz`);
    expectWithin(gotIm, im, 2e-4, `imaginary part at ${hz} Hz`);
  }
});

function combWithFilter(hz: number, frames: number, feedback: number, toneHz: number): [number, number] {
  const omega = (2 * Math.PI * hz) / rateHz;
  const pole = Math.exp((-2 * Math.PI * loopHighPassHz) / rateHz);
  const keep = toneHz === 20_000 ? 0 : Math.exp((-2 * Math.PI * toneHz) / rateHz);
  const high = divide(scale([1 - Math.cos(omega), Math.sin(omega)], (1 + pole) / 2), [
    1 - pole * Math.cos(omega),
    pole * Math.sin(omega),
  ]);
  const low = divide([1 - keep, 0], [1 - keep * Math.cos(omega), keep * Math.sin(omega)]);
  const late: Complex = [Math.cos(omega * frames), -Math.sin(omega * frames)];
  const loop = scale(multiply(multiply(high, low), late), feedback);
  return divide(late, [1 - loop[0], -loop[1]]);
}

type Complex = [number, number];
const scale = ([re, im]: Complex, by: number): Complex => [re * by, im * by];
const multiply = ([a, b]: Complex, [c, d]: Complex): Complex => [a * c - b * d, a * d + b * c];
const divide = (over: Complex, [c, d]: Complex): Complex =>
  scale(multiply(over, [c, -d]), 1 / (c * c + d * d));

/** Repeat k stands at k delayMs with gain feedback^(k - 1); common practice for the sides, no source. */
describe("repeats", () => {
  const settings = { delayMs: 20, feedback: 0.5 };
  const at = (channel: Float32Array, ms: number) => channel[Math.round((ms * rateHz) / 1000)];

  test("fall by the feedback", () => {
    const [wet] = wetOf({ model: "delay", settings, input: [impulse(9600)], rateHz });
    for (let k = 0; k < 5; k++) expectWithin(at(wet, 20 * (k + 1)), 0.5 ** k, 0.003);
    expect(at(wet, 30)).toBeCloseTo(0, 2);
  });

  test("ping-pong: left, right, left", () => {
    for (const inputs of [1, 2]) {
      const input = Array.from({ length: inputs }, () => impulse(9600));
      const ping = { ...settings, pingPong: true };
      const [left, right] = wetOf({ model: "delay", settings: ping, input, outputs: 2, rateHz });
      expectWithin(at(left, 20), 1, 1e-6);
      expectWithin(at(right, 20), 0, 1e-6);
      expectWithin(at(right, 40), 0.5, 0.001);
      expectWithin(at(left, 40), 0, 0.003);
      expectWithin(at(left, 60), 0.25, 0.001);
      expectWithin(at(right, 80), 0.125, 0.001);
    }
  });

  test("the right side has its own time", () => {
    const offset = { ...settings, rightDelayRatio: 0.75 };
    const [left, right] = wetOf({
      model: "delay",
      settings: offset,
      input: [impulse(9600)],
      outputs: 2,
      rateHz,
    });
    expectWithin(at(left, 20), 1, 1e-6);
    expectWithin(at(right, 15), 1, 1e-6);
    expectWithin(at(right, 30), 0.5, 0.001);
  });

  test("the right output by inversion, or dry", () => {
    const input = [sine({ frequencyHz: 400, rateHz, lengthSeconds: 0.1 })];
    const run = { model: "delay", input, outputs: 2, rateHz } as const;
    const [left, right] = soundOf({
      ...run,
      settings: { ...settings, mix: 0.3, secondOutput: "inverted-wet" },
    });
    for (let n = 0; n < left.length; n++) expectWithin((left[n] + right[n]) / 2, 0.7 * input[0][n], 1e-6);
    const [, dry] = soundOf({ ...run, settings: { ...settings, secondOutput: "wet-dry" } });
    expect(dry).toEqual(input[0]);
  });
});

/** A steady offset passes once and does not build up: with feedback 0.95 it would by 20 times. */
test("the loop keeps offsets out", () => {
  const input = [new Float32Array(2 * rateHz).fill(0.1)];
  const [wet] = wetOf({ model: "delay", settings: { delayMs: 5, feedback: 0.95 }, input, rateHz });
  expectWithin(wet[wet.length - 1], 0.1, 1e-4);
});
