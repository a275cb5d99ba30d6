import { describe, expect, test } from "vitest";
import { DispersiveChains, dispersiveBytes } from "../../src/sound/dsp/dispersiveChains.js";
import { openRoom } from "../../src/sound/loops/room.js";
import { octave, responseOf } from "../rig/pedals/reverbs.js";
import { expectWithin } from "../within.js";

/**
 * V. Valimaki, J. S. Parker and J. S. Abel, "Parametric spring reverberation effect", J. Audio Eng. Soc. 58(7/8), 2010:
 * 100 all-passes of coefficient a = 0.75 in z^-K, K = fs / (2 fc) with fc = 4300 Hz. Each delays by
 * K (1 - a^2) / (1 + 2 a cos(pi f / fc) + a^2) frames: K/7 at 0 Hz, 7 K at fc.
 */
const transitionHz = 4300;
const sections = 100;
const a = 0.75;
const sectionDelay = (hz: number): number =>
  (1 - a * a) / (1 + 2 * a * Math.cos((Math.PI * hz) / transitionHz) + a * a);

describe("the chirp", () => {
  const frames = 3000;
  const chains = new DispersiveChains([sections], a, 1, frames, openRoom(dispersiveBytes([sections])));
  const response = chains.signals[0];
  response[0] = 1;
  chains.process(frames);

  test("a section delays by 1/7 of K at 0 Hz and 7 K at the transition", () => {
    expectWithin(sectionDelay(0), 1 / 7, 1e-12);
    expectWithin(sectionDelay(transitionHz), 7, 1e-12);
    expectWithin(groupDelay(response, 0), sections / 7, 1e-6, "K frames");
    expectWithin(groupDelay(response, 0.5), sections * 7, 1e-3, "K frames");
  });

  test.each([100, 500, 1000, 2000, 3000, 3900, 4200])("its delay at %i Hz is the closed form's", (hz) => {
    const delay = groupDelay(response, hz / (2 * transitionHz));
    expectWithin(delay, sections * sectionDelay(hz), 1e-3, "K frames");
  });

  test("it is all-pass: energy 1, every frequency at its level", () => {
    expectWithin(
      response.reduce((sum, sample) => sum + sample * sample, 0),
      1,
      1e-9,
    );
    for (let cycles = 0.01; cycles < 0.5; cycles += 0.037) {
      const [re, im] = transform(response, cycles, (sample) => sample);
      expectWithin(Math.hypot(re, im), 1, 1e-6);
    }
  });
});

describe("the tank", () => {
  const rateHz = 44_100;
  const echoMs = 56;
  const settings = { springs: 1, decaySeconds: 10, echoMs, transitionHz };
  const [left] = responseOf({ model: "spring", settings, rateHz, seconds: 1 });

  /**
   * The first arrival crosses the spring once, in half an echo and what the chirp adds over 0 Hz. Its pre-echoes, a fifth
   * of the delay before and behind it and 20 dB down, pull that about a little.
   */
  test.each([
    [300, 500],
    [900, 1100],
    [1900, 2100],
    [2900, 3100],
  ])("%i to %i Hz first arrive when the chirp says", (fromHz, toHz) => {
    const first = Float64Array.from(left.subarray(0, Math.round(0.068 * rateHz)));
    const places = Array.from({ length: 40 }, (_, k) => fromHz + ((k + 0.5) / 40) * (toHz - fromHz));
    const powers = places.map((hz) => {
      const [re, im] = transform(first, hz / rateHz, (sample) => sample);
      return re * re + im * im;
    });
    const arrival = places.reduce((sum, hz, k) => sum + powers[k] * groupDelay(first, hz / rateHz), 0);
    const seconds = arrival / powers.reduce((sum, power) => sum + power, 0) / rateHz;
    const chirp = (sections * (sectionDelay((fromHz + toHz) / 2) - sectionDelay(0))) / (2 * transitionHz);
    expectWithin(1000 * seconds, echoMs / 2 + 1000 * chirp, 0.5, "ms");
  });

  /** A wave comes back after the echo time, turned over (the loop gain of the paper is negative). */
  test("slow waves come back after the echo time, turned over", () => {
    const band = octave(left, 250, rateHz);
    const lags = Array.from({ length: 1400 }, (_, k) => 1700 + k);
    const likeness = lags.map((lag) => {
      let sum = 0;
      for (let n = 0; n + lag < 22_050; n++) sum += band[n] * band[n + lag];
      return sum;
    });
    const lowest = lags[likeness.indexOf(Math.min(...likeness))];
    const highest = Math.max(...likeness);
    expectWithin((1000 * lowest) / rateHz, echoMs, 2.5, "ms");
    expect(-Math.min(...likeness)).toBeGreaterThan(highest);
  });

  test("nothing passes above the transition frequency, nor at 0 Hz", () => {
    const pass = meanPower(left, 300, 3000, rateHz);
    // First-order cut at 40 Hz: 32 dB at 1 Hz. Rate conversion: 50 dB each way.
    for (const [from, to, dropDb] of [
      [0, 2, 30],
      [4500, 9000, 45],
      [9000, 20_000, 45],
    ]) {
      const stop = meanPower(left, from, to, rateHz);
      expect(10 * Math.log10(stop / pass), `${from} to ${to} Hz`).toBeLessThan(-dropDb);
    }
  });
});

/** Mean of |H|^2 at 100 places between two frequencies. */
function meanPower(response: Float32Array, fromHz: number, toHz: number, rateHz: number): number {
  const signal = Float64Array.from(response);
  let sum = 0;
  for (let k = 0; k < 100; k++) {
    const hz = fromHz + ((k + 0.5) / 100) * (toHz - fromHz);
    const [re, im] = transform(signal, hz / rateHz, (sample) => sample);
    sum += (re * re + im * im) / 100;
  }
  return sum;
}

/** -d(phase)/d(omega) = Re(F[n h] / F[h]), in frames. */
function groupDelay(response: Float64Array, cyclesPerFrame: number): number {
  const [re, im] = transform(response, cyclesPerFrame, (sample) => sample);
  const [nRe, nIm] = transform(response, cyclesPerFrame, (sample, n) => n * sample);
  return (nRe * re + nIm * im) / (re * re + im * im);
}

function transform(
  signal: Float64Array,
  cyclesPerFrame: number,
  weigh: (sample: number, n: number) => number,
): [number, number] {
  let [re, im] = [0, 0];
  signal.forEach((sample, n) => {
    re += weigh(sample, n) * Math.cos(2 * Math.PI * cyclesPerFrame * n);
    im -= weigh(sample, n) * Math.sin(2 * Math.PI * cyclesPerFrame * n);
  });
  return [re, im];
}
