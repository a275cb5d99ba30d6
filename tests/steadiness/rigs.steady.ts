import fc from "fast-check";
import { expect, test } from "vitest";
import { pluckString } from "../../src/demo/pluckedString.js";
import { routingsOf } from "../../src/rig/routings/routingsOf.js";
import type { Wiring } from "../../src/rig/wiring/wiring.js";
import { initialiseFft } from "../../src/sound/dsp/fft.js";
import type { SoundMeasures } from "../../src/sound/measure/measures.js";
import { StereoMeter } from "../../src/sound/measure/stereoMeter.js";
import { compile } from "../../src/work/render/compile.js";
import type { Graph } from "../../src/work/render/graph.js";
import { anyRig } from "../rig/file/anyRig.js";
import { noise } from "../signals.js";

await initialiseFft();
const rateHz = 8000;
const seed = 20_266;
const rigs = Number(process.env.RIGS ?? 500);
const takeSeconds = 2;
/** So long that what falls by 60 dB in 2.5 s or less is far below the smallest normal float32, at -758 dB. */
const silenceSeconds = 32;

const takes: Readonly<Record<string, Float32Array>> = {
  plucked: plucked(),
  noise: differences(noise({ seed: 4, frames: takeSeconds * rateHz, rms: 0.15 })),
  clicks: differences(
    Float32Array.from({ length: takeSeconds * rateHz }, (_, n) => (n % 2000 === 0 ? 1 : 0)),
  ),
};

/** To share the rigs out among processes. */
const first = Number(process.env.FIRST ?? 0);

/** The take, then half a minute of silence, second by second. */
test(`rigs ${first} to ${rigs} of any models, jacks and settings stay steady`, () => {
  const slowdowns: number[] = [];
  let routings = 0;
  let largestDc = 0;
  for (const [n, rig] of fc.sample(anyRig(5), { numRuns: rigs, seed }).entries()) {
    if (n < first) continue;
    const wirings = routingsOf(rig).flatMap(({ wiring }) => (wiring ? [wiring] : []));
    for (const [name, take] of Object.entries(takes)) {
      const where = `rig ${n} of seed ${seed}, ${name}: ${JSON.stringify(rig.pedals)}`;
      let found = lookAt(wirings, take, where);
      // The machine is not alone: what is slow by itself is slow again.
      for (let again = 0; again < 3 && found.slowdown > 1.3; again++) found = lookAt(wirings, take, where);
      routings += wirings.length;
      slowdowns.push(found.slowdown);
      largestDc = Math.max(largestDc, found.dc);
      if (found.dc > 0.01) expect.fail(`a mean of ${found.dc} of the loudest second's RMS; ${where}`);
      if (found.slowdown > 2) console.log(`slow ${found.slowdown.toFixed(2)} x: ${where.slice(0, 400)}`);
    }
    if (n % 50 === 49) console.log(`${n + 1} rigs, ${routings} renders`);
  }
  slowdowns.sort((a, b) => a - b);
  const at = (share: number) => slowdowns[Math.floor(share * (slowdowns.length - 1))].toFixed(2);
  console.log(
    `rigs ${first} to ${rigs} x ${Object.keys(takes).length} takes, ${routings} renders of ${takeSeconds + silenceSeconds} s: no fault; ` +
      `largest DC ${largestDc.toExponential(1)} of the loudest second; ` +
      `a second of silence takes ${at(0.5)} x a second of sound (median), ${at(0.99)} x (99 %), ${at(1)} x (most)`,
  );
});

interface Found {
  /** Time for a second of the slowest ten seconds of silence against one of the take. */
  readonly slowdown: number;
  /** Largest mean of one of the last five seconds, against the RMS of the loudest. */
  readonly dc: number;
}

function lookAt(wirings: readonly Wiring[], take: Float32Array, where: string): Found {
  const graph = compile(wirings, { rateHz, blockFrames: 1000, clips: new Map() });
  const meters = wirings.map(() => new StereoMeter(rateHz));
  const loudest = new Float64Array(graph.outputs.length);
  const dc = new Float64Array(graph.outputs.length);
  const energies = new Float64Array(graph.outputs.length);
  const means = new Float64Array(graph.outputs.length);

  /** One second from `second` on of the take and the silence behind it; gives what it took, in ms. */
  const play = (second: number): number => {
    energies.fill(0);
    means.fill(0);
    let milliseconds = 0;
    for (let start = second * rateHz; start < (second + 1) * rateHz; start += 1000) {
      const begun = performance.now();
      graph.process(take, start, 1000);
      milliseconds += performance.now() - begun;
      gather(graph, energies, means);
      if (second < 6) {
        meters.forEach((meter, n) => {
          meter.push(graph.outputs[2 * n], graph.outputs[2 * n + 1], 1000);
        });
      }
    }
    for (const [k, energy] of energies.entries()) {
      if (!Number.isFinite(energy)) expect.fail(`output ${k} is not finite in second ${second}; ${where}`);
      loudest[k] = Math.max(loudest[k], energy);
      if (second >= takeSeconds + silenceSeconds - 5) dc[k] = Math.max(dc[k], Math.abs(means[k]) / rateHz);
    }
    return milliseconds;
  };

  for (let second = 0; second < takeSeconds; second++) play(second);
  // The machine is not alone: beside each second of silence a twin of the graph plays a second of the take.
  const twin = compile(wirings, { rateHz, blockFrames: 1000, clips: new Map() });
  const ratios = Array.from(
    { length: silenceSeconds },
    (_, second) => play(takeSeconds + second) / playTwin(twin, take, second % takeSeconds),
  );
  for (const [k, energy] of energies.entries()) {
    if (energy > 0.25 * loudest[k]) expect.fail(`output ${k} does not die away; ${where}`);
  }
  for (const meter of meters) expectWithinRanges(meter.result(), where);
  return {
    slowdown: slowdownOf(ratios),
    dc: Math.max(0, ...dc.map((most, k) => (loudest[k] > 0 ? most / Math.sqrt(loudest[k] / rateHz) : 0))),
  };
}

function playTwin(twin: Graph, take: Float32Array, second: number): number {
  let milliseconds = 0;
  for (let start = second * rateHz; start < (second + 1) * rateHz; start += 1000) {
    const begun = performance.now();
    twin.process(take, start, 1000);
    milliseconds += performance.now() - begun;
    gather(twin, new Float64Array(twin.outputs.length), new Float64Array(twin.outputs.length));
  }
  return milliseconds;
}

/** The largest lower quartile of ten seconds on end. */
function slowdownOf(ratios: readonly number[]): number {
  const windows = Array.from({ length: (silenceSeconds - 2) / 10 }, (_, w) => {
    const sorted = ratios.slice(10 * w + 2, 10 * w + 12).sort((a, b) => a - b);
    return sorted[sorted.length >> 2];
  });
  return Math.max(...windows);
}

function gather(graph: Graph, energies: Float64Array, means: Float64Array): void {
  for (const [k, output] of graph.outputs.entries()) {
    let energy = 0;
    let sum = 0;
    for (let n = 0; n < 1000; n++) {
      energy += output[n] * output[n];
      sum += output[n];
    }
    energies[k] += energy;
    means[k] += sum;
  }
}

/** Ranges by the definitions of the measures. */
function expectWithinRanges(measures: SoundMeasures, where: string): void {
  const between = (name: keyof SoundMeasures, least: number, most: number) => {
    const value = measures[name];
    if (value === null) return;
    if (typeof value !== "number" || !(value >= least - 1e-9 && value <= most + 1e-9)) {
      expect.fail(`${name} is ${String(value)}; ${where}`);
    }
  };
  between("correlation", -1, 1);
  between("iacc", 0, 1);
  between("sideShare", 0, 1);
  // Under 0 where the gate, 10 LU under the mean, leaves out quiet blocks of the fold-down alone.
  between("foldDownLossDb", -10, Number.POSITIVE_INFINITY);
  between("loudnessRangeLu", 0, Number.POSITIVE_INFINITY);
  between("centroidHz", 50, 16_000);
  if (measures.truePeakDbtp !== null) {
    between("samplePeakDbfs", Number.NEGATIVE_INFINITY, measures.truePeakDbtp);
  }
  const overTime = measures.correlationOverTime;
  for (const value of [overTime?.median, overTime?.percentile5]) {
    if (value !== null && value !== undefined && Math.abs(value) > 1 + 1e-9) {
      expect.fail(`correlation over time reaches ${value}; ${where}`);
    }
  }
}

/** Holds no DC. */
function differences(samples: Float32Array): Float32Array {
  return samples.map((x, n) => x - (samples[n - 1] ?? 0));
}

function plucked(): Float32Array {
  const take = new Float32Array(takeSeconds * rateHz);
  for (const [note, frequencyHz] of [82.4, 123.5, 164.8, 207.7].entries()) {
    const string = pluckString(
      {
        frequencyHz,
        decaySeconds: 3,
        dampAtSeconds: 1.5,
        dampedSeconds: 0.1,
        lengthSeconds: 2,
        strength: 0.4,
        pickAt: 0.2,
        pickupAt: 0.1,
        seed: note + 1,
      },
      rateHz,
    );
    for (let n = 0; n < string.length && n + note * 4000 < take.length; n++)
      take[n + note * 4000] += string[n];
  }
  return take;
}
