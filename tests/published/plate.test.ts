import { describe, expect, test } from "vitest";
import { firstSound, responseOf } from "../rig/pedals/reverbs.js";
import { expectWithin } from "../within.js";

/** The paper's own rate: every length and tap is a whole frame as printed. */
const rateHz = 29_761;
const settings = { decaySeconds: 1.8, preDelayMs: 0, excursionMs: 0, bandwidthHz: 20_000, dampingHz: 20_000 };

/**
 * J. Dattorro, "Effect Design, Part 1", J. Audio Eng. Soc. 45(9), 1997, Fig. 1 and Tables 1 and 2, written out a second
 * time below, node by node over whole signals in double precision, the swing stopped.
 */
describe("the plate of 1997", () => {
  const response = responseOf({ model: "plate", settings, rateHz, seconds: 2.5 });
  const paper = paperPlate(response[0].length);

  test("first sounds come after 266 frames on the left, 353 on the right", () => {
    expect(response.map(firstSound)).toEqual([266, 353]);
  });

  /** One scale for both outputs is free; single-precision delay lines carry 24 bits. */
  test("is the published network, tap by tap", () => {
    const scale = response[0][266] / paper[0][266];
    const peak = Math.max(...paper[0].map(Math.abs)) * scale;
    for (const side of [0, 1]) {
      const worst = paper[side].reduce(
        (most, sample, n) => Math.max(most, Math.abs(response[side][n] - scale * sample)),
        0,
      );
      expectWithin(worst / peak, 0, 2e-6);
    }
  });
});

/** The paper's swing is 16 frames at most: 0.538 ms. The setting stays inside. */
test("at its largest swing the delays still hold", () => {
  const [left] = responseOf({ model: "plate", settings: { excursionMs: 0.53, lfoHz: 5 }, seconds: 3 });
  expect(left.every(Number.isFinite)).toBe(true);
});

function paperPlate(frames: number): [Float64Array, Float64Array] {
  const loss = (length: number) => 10 ** ((-3 * length) / (rateHz * settings.decaySeconds));
  const node = () => new Float64Array(frames);
  const at = (signal: Float64Array, n: number) => (n < 0 ? 0 : signal[n]);
  // A corner at half the rate: |H|^2 = 1/2 there gives (1 - p)^2 / (1 + p)^2 = 1/2.
  const p = 3 - Math.sqrt(8);
  const dampingGainAt = (hz: number) =>
    (1 - p) / Math.sqrt(1 - 2 * p * Math.cos((2 * Math.PI * hz) / rateHz) + p * p);
  const givenBack = 1 / dampingGainAt(settings.dampingHz / 7);

  const diffusers = [
    { delay: 142, g: 0.75, v: node() },
    { delay: 107, g: 0.75, v: node() },
    { delay: 379, g: 0.625, v: node() },
    { delay: 277, g: 0.625, v: node() },
  ];
  const half = (swinging: number, first: number, second: number, last: number) => {
    const decay = loss((swinging + first + second + last) / 2);
    const g2 = Math.min(0.5, Math.max(0.25, decay + 0.15));
    const signals = { swingingV: node(), first: node(), damped: node(), secondV: node(), last: node() };
    return { swinging, firstDelay: first, second, lastDelay: last, g2, ...signals };
  };
  const left = half(672, 4453, 1800, 3720);
  const right = half(908, 4217, 2656, 3163);
  const lowPassed = node();
  const out: [Float64Array, Float64Array] = [node(), node()];

  for (let n = 0; n < frames; n++) {
    lowPassed[n] = (1 - p) * (n === 0 ? 1 : 0) + p * at(lowPassed, n - 1);
    let x = lowPassed[n];
    for (const { delay, g, v } of diffusers) {
      v[n] = x - g * at(v, n - delay);
      x = at(v, n - delay) + g * v[n];
    }
    for (const [own, other] of [
      [left, right],
      [right, left],
    ]) {
      const entering = x + loss(other.lastDelay) * at(other.last, n - other.lastDelay);
      const swung = loss(own.swinging) * at(own.swingingV, n - own.swinging);
      own.swingingV[n] = entering + 0.7 * swung;
      own.first[n] = swung - 0.7 * own.swingingV[n];
      const delayed = loss(own.firstDelay) * givenBack * at(own.first, n - own.firstDelay);
      own.damped[n] = (1 - p) * delayed + p * at(own.damped, n - 1);
      const second = loss(own.second) * at(own.secondV, n - own.second);
      own.secondV[n] = own.damped[n] - own.g2 * second;
      own.last[n] = second + own.g2 * own.secondV[n];
    }
    const tap = (signal: Float64Array, delay: number) => 0.6 * loss(delay) * at(signal, n - delay);
    out[0][n] =
      tap(right.first, 266) +
      tap(right.first, 2974) -
      tap(right.secondV, 1913) +
      tap(right.last, 1996) -
      tap(left.first, 1990) -
      tap(left.secondV, 187) -
      tap(left.last, 1066);
    out[1][n] =
      tap(left.first, 353) +
      tap(left.first, 3627) -
      tap(left.secondV, 1228) +
      tap(left.last, 2673) -
      tap(right.first, 2111) -
      tap(right.secondV, 335) -
      tap(right.last, 121);
  }
  return out;
}
