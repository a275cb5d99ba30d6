import { align } from "../../../src/work/capture/align.js";
import { randomNumbers } from "../../signals.js";
import { guitar, guitarNames } from "./guitars.js";
import { playThrough } from "./simulatedLoop.js";

/** How often an alignment's intervals hold the truth, over random loops of real guitars. */
export interface Coverage {
  readonly cases: number;
  readonly latency: number;
  readonly gain: number;
  /** Cases that were wrong by over a frame or over 1 dB, with a confidence over 0.9. */
  readonly sureAndWrong: number;
  /** Cases in which another lag was said to fit as well; none of these takes repeats. */
  readonly otherLags: number;
}

const rateHz = 44_100;
const seconds = 3;

/**
 * Latency of 5 to 4000 frames, gain of -12 to 6 dB, either polarity, noise 40 to 3 dB under the loop; a one-pole low-pass
 * of 800 Hz to 10 kHz in every second loop. The truth is the delay ahead of the filter, and the gain of its passband.
 */
export async function coverageOf(cases: number, seed: number): Promise<Coverage> {
  const random = randomNumbers(seed);
  const takes = await Promise.all(
    guitarNames.map(async (name) => (await guitar(name)).channels[0].subarray(0, seconds * rateHz)),
  );
  let [latency, gain, sureAndWrong, otherLags] = [0, 0, 0, 0];
  for (let n = 0; n < cases; n++) {
    const take = takes[n % takes.length];
    const latencyFrames = 5 + 3995 * random();
    const gainDb = -12 + 18 * random();
    const inverts = random() < 0.5;
    const underDb = 3 + 37 * random();
    const pole = Math.exp((-2 * Math.PI * 800 * 12.5 ** random()) / rateHz);
    const response = n % 2 === 0 ? [1] : Float64Array.from({ length: 600 }, (_, m) => (1 - pole) * pole ** m);
    const clean = playThrough(take, { latencyFrames, gainDb, inverts, response }, rateHz).channels[0];
    const levelDb = 10 * Math.log10(clean.reduce((sum, x) => sum + x * x, 0) / clean.length);
    const noiseDbfs = levelDb - underDb;
    const loop = { latencyFrames, gainDb, inverts, response, noiseDbfs, seed: 100 + n };
    const found = align({ rateHz, channels: [take] }, playThrough(take, loop, rateHz));
    const holds = ([from, to]: readonly [number, number], truth: number) => from <= truth && truth <= to;
    if (holds(found.latencyFramesWithin, latencyFrames)) latency++;
    if (holds(found.gainDbWithin, gainDb)) gain++;
    const isWrong = Math.abs(found.latencyFrames - latencyFrames) > 1 || Math.abs(found.gainDb - gainDb) > 1;
    if (isWrong && found.confidence > 0.9) sureAndWrong++;
    if (found.otherLag !== null) otherLags++;
  }
  return { cases, latency: latency / cases, gain: gain / cases, sureAndWrong, otherLags };
}
