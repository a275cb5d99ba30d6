// What each running meter costs on 60 s of stereo, as a multiple of reading both channels once from memory.

import { KEnergyMeter } from "../../src/sound/measure/kEnergies.ts";
import { SpectrumMeter } from "../../src/sound/measure/spectrum.ts";
import { StepSums } from "../../src/sound/measure/stepSums.ts";
import { StereoMeter } from "../../src/sound/measure/stereoMeter.ts";
import { StereoSums } from "../../src/sound/measure/stereoSums.ts";
import { TruePeakMeter } from "../../src/sound/measure/truePeak.ts";
import { correlationStepsPerSecond } from "../../src/sound/measure/windowEnergies.ts";
import { inTurn, pluckedTake } from "./rounds.mjs";

const rateHz = 48_000;
const lengthSeconds = 60;
const blockFrames = 1024;

export async function benchMeasures() {
  const left = pluckedTake(lengthSeconds, rateHz);
  const right = left.map((x, n) => 0.8 * (left[n - 100] ?? 0) + 0.1 * x);
  const meter = (make) => () => {
    const meters = make();
    inBlocks(left, right, (l, r) => {
      for (const one of meters) one.push(l, r, l.length);
    });
    for (const one of meters) one.result?.();
  };
  const seconds = await inTurn({
    read: () => inBlocks(left, right, readOnce),
    "correlation, side share, balance": meter(() => [new StereoSums()]),
    "correlation over time": meter(() => [new StepSums(correlationStepsPerSecond, rateHz)]),
    "loudness, range, fold-down": meter(() => [new KEnergyMeter(rateHz)]),
    "bands, tone, IACC": meter(() => [new SpectrumMeter(rateHz)]),
    "true peak": meter(() => [oneSide(rateHz, 0), oneSide(rateHz, 1)]),
    "all together": meter(() => [new StereoMeter(rateHz)]),
  });
  const { read, ...measures } = seconds;
  const nanoseconds = (time) => ((time / (lengthSeconds * rateHz)) * 1e9).toFixed(1);
  return [
    `reading two channels once: ${nanoseconds(read)} ns a frame`,
    ...Object.entries(measures).map(
      ([name, time]) => `  ${name}: ${(time / read).toFixed(1)} x (${nanoseconds(time)} ns a frame)`,
    ),
  ];
}

function inBlocks(left, right, use) {
  for (let from = 0; from < left.length; from += blockFrames) {
    use(left.subarray(from, from + blockFrames), right.subarray(from, from + blockFrames));
  }
}

/** Kept, so that the reading is not left out as of no use. */
export let total = 0;
function readOnce(left, right) {
  let sum = 0;
  for (let n = 0; n < left.length; n++) sum += left[n] + right[n];
  total += sum;
}

function oneSide(rate, side) {
  const meter = new TruePeakMeter(rate);
  return { push: (l, r, frames) => meter.push(side === 0 ? l : r, frames), result: () => meter.result() };
}
