import { describe, expect, test } from "vitest";
import { absorption } from "../../src/sound/dsp/absorption.js";
import { AllPassChain, allPassBytes } from "../../src/sound/dsp/allPassChain.js";
import { allPassEnergy } from "../../src/sound/dsp/allPassEnergy.js";
import { decayGain } from "../../src/sound/dsp/decayGain.js";
import { hallDesign, hallWeights, meanFlightSeconds } from "../../src/sound/dsp/hallDesign.js";
import { HallNetwork, hallNetworkBytes } from "../../src/sound/dsp/hallNetwork.js";
import { openRoom, roomBytes } from "../../src/sound/loops/room.js";
import { expectWithin } from "../within.js";

/**
 * M. R. Schroeder, "Natural sounding artificial reverberation", J. Audio Eng. Soc. 10(3), 1962: a comb of delay tau decays
 * by 60 dB in T60 = 3 tau / (-lg g). Figures computed from that formula.
 */
test.each([
  [29.7, 1, 0.814517],
  [37.1, 1, 0.773927],
  [41.1, 1, 0.752835],
  [43.7, 1, 0.739435],
  [29.7, 2, 0.902506],
  [43.7, 2, 0.859904],
])("a comb of %d ms decays in %d s with a gain of %d", (delayMs, decaySeconds, gain) => {
  expectWithin(decayGain(delayMs * 48, decaySeconds, 48_000), gain, 5e-7);
});

describe("the all-pass of Schroeder 1962", () => {
  const delayFrames = 113;
  const g = 0.7;
  const response = chainResponse([{ delayFrames, coefficient: g }], 113 * 60);

  /** (g + z^-D) / (1 + g z^-D) = g, then (1 - g^2) (-g)^(n-1) at every n D. */
  test("its echoes have the published sizes, and there is nothing between them", () => {
    response.forEach((sample, frame) => {
      const n = frame / delayFrames;
      const expected = n === 0 ? g : Number.isInteger(n) ? (1 - g * g) * (-g) ** (n - 1) : 0;
      expectWithin(sample, expected, 1e-7);
    });
  });

  test("its energy is 1", () => {
    expectWithin(energy(response), 1, 1e-6);
    expectWithin(allPassEnergy(g, 1), 1, 1e-12);
  });

  /** Closed form: the energies g^2 and ((1 - g^2) c (g c)^(n-1))^2 summed. */
  test("with a loss its energy is that of its echoes", () => {
    const c = 0.8;
    let sum = g * g;
    for (let n = 1; n < 200; n++) sum += ((1 - g * g) * c * (g * c) ** (n - 1)) ** 2;
    expectWithin(allPassEnergy(g, c), sum, 1e-12);
  });

  test("a chain of four is flat within 0.001 dB and keeps energy", () => {
    const chain = [142, 107, 379, 277].map((length, k) => ({
      delayFrames: length,
      coefficient: k < 2 ? 0.75 : 0.625,
    }));
    const out = chainResponse(chain, 40_000);
    expectWithin(energy(out), 1, 1e-5);
    for (let hz = 37; hz < 24_000; hz += 977)
      expectWithin(gainDbAt(out, hz / 48_000), 0, 1e-3, `dB at ${hz} Hz`);
  });
});

describe("the feedback delay network of Jot and Chaigne 1991", () => {
  const rateHz = 48_000;
  const lengths = hallDesign({ decaySeconds: 2, dampingHz: 9000, sizeMetres: 24, rateHz }).map(
    (line) => line.delayFrames,
  );

  /** A unitary matrix and lines without loss keep energy: over half a minute the level must not move. */
  test("without loss its level stays", () => {
    const out = networkResponse(lengths, () => 1, 30 * rateHz);
    const early = energy(out.subarray(2 * rateHz, 6 * rateHz));
    const late = energy(out.subarray(26 * rateHz, 30 * rateHz));
    expectWithin(10 * Math.log10(late / early), 0, 0.2, "dB");
  });

  /** With 10^(-3 m / (fs T60)) on a line of m frames every resonance falls by 60 dB in T60, so their sum does. */
  test("with each line's own loss it falls by 60 dB in the time set", () => {
    const out = networkResponse(lengths, (frames) => decayGain(frames, 1.5, rateHz), 3 * rateHz);
    const [start, end] = [0.3, 1.8].map((at) => energy(out.subarray(at * rateHz, (at + 1) * rateHz)));
    expectWithin(10 * Math.log10(start / end), 60, 0.5, "dB");
  });

  /** T60(f) = -60 m / (fs * 20 lg |H|): the whole time at dampingHz / 7.5, half of it at dampingHz. */
  test.each([8000, 44_100, 48_000, 96_000])("a line's absorption takes the times set, at %i Hz", (rate) => {
    const dampingHz = 3500;
    const { gain, pole } = absorption({ frames: 0.05 * rate, decaySeconds: 2, dampingHz, rateHz: rate });
    const decayAt = (hz: number) => {
      const cosine = Math.cos((2 * Math.PI * hz) / rate);
      const size = gain / Math.sqrt(1 - 2 * pole * cosine + pole * pole);
      return (-3 * 0.05) / Math.log10(size);
    };
    expectWithin(decayAt(dampingHz / 7.5), 2, 1e-9, "s");
    expectWithin(decayAt(dampingHz), 1, 1e-9, "s");
    expectWithin(decayAt(0), 2, 0.1, "s");
  });

  test("its lines are different primes, on average as long as a flight between the walls", () => {
    expect(new Set(lengths).size).toBe(lengths.length);
    for (const length of lengths) {
      for (let divisor = 2; divisor * divisor <= length; divisor++) expect(length % divisor).not.toBe(0);
    }
    const mean = lengths.reduce((sum, length) => sum + length, 0) / lengths.length;
    expectWithin(mean / (meanFlightSeconds(24) * rateHz), 1, 0.02);
    // 4V/S of a cube of 24 m is 16 m; at 343 m/s that is 46.6 ms.
    expectWithin(meanFlightSeconds(24), 0.046647, 1e-6, "s");
  });

  /** Schroeder's modal density as J. O. Smith gives it: the sum of the delays at least 0.15 T60. */
  test("it has modes enough for its default decay", () => {
    const sum = lengths.reduce((total, length) => total + length, 0) / rateHz;
    expect(sum).toBeGreaterThan(0.15 * 2.8);
  });
});

function chainResponse(
  sections: { delayFrames: number; coefficient: number }[],
  frames: number,
): Float64Array {
  const room = openRoom(roomBytes(8 * frames) + allPassBytes(sections));
  const signal = room.doubles(frames);
  signal[0] = 1;
  new AllPassChain(sections, signal, room).process(frames);
  return signal;
}

/** The left output of the network with these gains on its lines and no swing. */
function networkResponse(
  lengths: number[],
  gainOf: (frames: number) => number,
  frames: number,
): Float64Array {
  const lines = lengths.map((delayFrames) => ({
    delayFrames,
    gain: gainOf(delayFrames),
    pole: 0,
    gainAtReference: 1,
  }));
  const network = new HallNetwork(
    lines,
    { excursionFrames: 0, lfoHz: 1, rateHz: 48_000 },
    openRoom(hallNetworkBytes(lines, 0)),
  );
  const out = new Float64Array(frames);
  for (let done = 0; done < frames; ) {
    const run = network.ready(frames - done);
    for (const side of network.fed) side[0] = done === 0 ? 1 : 0;
    network.process(run);
    for (let n = 0; n < run; n++) {
      for (let k = 0; k < 4; k++) out[done + n] += hallWeights[0][k] * network.sums[k][n];
    }
    done += run;
  }
  return out;
}

const energy = (signal: Float64Array): number => signal.reduce((sum, sample) => sum + sample * sample, 0);

function gainDbAt(response: Float64Array, cyclesPerFrame: number): number {
  let [re, im] = [0, 0];
  response.forEach((sample, n) => {
    re += sample * Math.cos(2 * Math.PI * cyclesPerFrame * n);
    im -= sample * Math.sin(2 * Math.PI * cyclesPerFrame * n);
  });
  return 10 * Math.log10(re * re + im * im);
}
