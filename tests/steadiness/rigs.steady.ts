import fc from "fast-check";
import { expect, test } from "vitest";
import { pluckString } from "../../src/demo/pluckedString.js";
import { initialiseFft } from "../../src/dsp/fft.js";
import type { Measures } from "../../src/measure/measures.js";
import { StereoMeter } from "../../src/measure/stereoMeter.js";
import { compile } from "../../src/render/compile.js";
import type { Graph } from "../../src/render/graph.js";
import { routingsOf } from "../../src/routings/routingsOf.js";
import type { Wiring } from "../../src/wiring/wiring.js";
import { anyRig } from "../rig/anyRig.js";
import { noise } from "../signals.js";

await initialiseFft();
const rateHz = 8000;
const seed = 20_266;
const rigs = Number(process.env.RIGS ?? 500);
const takeSeconds = 2;
/** So long that every float32 ring of a tail under 5 s would be denormal: 60 s are 12 such tails, -720 dB and less. */
const silenceSeconds = 62;

const takes: Readonly<Record<string, Float32Array>> = {
  plucked: plucked(),
  noise: noise({ seed: 4, frames: takeSeconds * rateHz, rms: 0.25 }).map((x) => Math.max(-1, Math.min(1, x))),
  clicks: Float32Array.from({ length: takeSeconds * rateHz }, (_, n) => (n % 2000 === 0 ? 1 : 0)),
};

/** The take, then a minute of silence, second by second. */
test(`${rigs} rigs of any models, jacks and settings stay steady`, () => {
  const slowdowns: number[] = [];
  let routings = 0;
  let largestDc = 0;
  for (const [n, rig] of fc.sample(anyRig(5), { numRuns: rigs, seed }).entries()) {
    const wirings = routingsOf(rig).flatMap(({ wiring }) => (wiring ? [wiring] : []));
    for (const [name, take] of Object.entries(takes)) {
      const where = `rig ${n} of seed ${seed}, ${name}: ${JSON.stringify(rig.pedals)}`;
      const found = lookAt(wirings, take, where);
      routings += wirings.length;
      slowdowns.push(found.slowdown);
      largestDc = Math.max(largestDc, found.dc);
      if (found.dc > 0.05) expect.fail(`a mean of ${found.dc} of the loudest second's RMS; ${where}`);
      if (found.slowdown > 2) console.log(`slow ${found.slowdown.toFixed(2)} x: ${where}`);
    }
    if (n % 50 === 49) console.log(`${n + 1} rigs, ${routings} renders`);
  }
  slowdowns.sort((a, b) => a - b);
  const at = (share: number) => slowdowns[Math.floor(share * (slowdowns.length - 1))].toFixed(2);
  console.log(
    `${rigs} rigs x ${Object.keys(takes).length} takes, ${routings} renders of ${takeSeconds + silenceSeconds} s: no fault; ` +
      `largest DC ${largestDc.toExponential(1)} of the loudest second; ` +
      `a second of silence takes ${at(0.5)} x a second of sound (median), ${at(0.99)} x (99 %), ${at(1)} x (most)`,
  );
});

interface Found {
  /** Time for a second late in the silence against one of the take. */
  readonly slowdown: number;
  /** Largest mean of any second from the second one on, against the RMS of the loudest. */
  readonly dc: number;
}

function lookAt(wirings: readonly Wiring[], take: Float32Array, where: string): Found {
  const graph = compile(wirings, { rateHz, blockFrames: 1000, clips: new Map() });
  const meters = wirings.map(() => new StereoMeter(rateHz));
  const loudest = new Float64Array(graph.outputs.length);
  const last = new Float64Array(graph.outputs.length);
  const mean = new Float64Array(graph.outputs.length);
  const dc = new Float64Array(graph.outputs.length);
  const seconds: number[] = [];
  for (let second = 0; second < takeSeconds + silenceSeconds; second++) {
    last.fill(0);
    mean.fill(0);
    let milliseconds = 0;
    for (let start = second * rateHz; start < (second + 1) * rateHz; start += 1000) {
      const begun = performance.now();
      graph.process(take, start, 1000);
      milliseconds += performance.now() - begun;
      gather(graph, last, mean);
      if (second < 6) {
        meters.forEach((meter, n) => {
          meter.push(graph.outputs[2 * n], graph.outputs[2 * n + 1], 1000);
        });
      }
    }
    seconds.push(milliseconds);
    for (const [k, energy] of last.entries()) {
      if (!Number.isFinite(energy)) expect.fail(`output ${k} is not finite in second ${second}; ${where}`);
      loudest[k] = Math.max(loudest[k], energy);
      if (second > 0) dc[k] = Math.max(dc[k], Math.abs(mean[k]) / rateHz);
    }
  }
  for (const [k, energy] of last.entries()) {
    if (energy > 0.25 * loudest[k]) expect.fail(`output ${k} does not die away; ${where}`);
  }
  for (const meter of meters) expectWithinRanges(meter.result(), where);
  return {
    slowdown: slowdownOf(seconds),
    dc: Math.max(0, ...dc.map((most, k) => (loudest[k] > 0 ? most / Math.sqrt(loudest[k] / rateHz) : 0))),
  };
}

/** Medians: the machine is not alone. */
function slowdownOf(seconds: readonly number[]): number {
  const median = (values: readonly number[]) => [...values].sort((a, b) => a - b)[values.length >> 1];
  const windows = Array.from({ length: 6 }, (_, w) =>
    median(seconds.slice(takeSeconds + 10 * w + 2, takeSeconds + 10 * (w + 1) + 2)),
  );
  return Math.max(...windows) / seconds[1];
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
function expectWithinRanges(measures: Measures, where: string): void {
  const between = (name: keyof Measures, least: number, most: number) => {
    const value = measures[name];
    if (value === null) return;
    if (typeof value !== "number" || !(value >= least - 1e-9 && value <= most + 1e-9)) {
      expect.fail(`${name} is ${String(value)}; ${where}`);
    }
  };
  between("correlation", -1, 1);
  between("iacc", 0, 1);
  between("sideShare", 0, 1);
  between("foldDownLossDb", 0, Number.POSITIVE_INFINITY);
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
