import { KFilter } from "../dsp/kFilter.js";
import { type StepEnergies, StepSums } from "./stepSums.js";
import { commonFrames } from "./stereoSums.js";

/** Grid of all loudness measures: 10 ms, so that every window of the standards starts and ends on it. */
export const loudnessStepsPerSecond = 100;

/** Frames filtered at once: small enough to stay in the nearest cache. */
const runFrames = 2048;

/**
 * K-weighted energies of a stereo stream in steps of 10 ms. Filters are linear, so the loudness of a mono sum needs
 * no filter of its own: its energy follows from left, right and cross.
 */
export class KEnergyMeter {
  readonly #filter: KFilter;
  readonly #sums: StepSums;
  readonly #weighted = [new Float32Array(runFrames), new Float32Array(runFrames)];

  constructor(rateHz: number) {
    this.#filter = new KFilter(rateHz);
    this.#sums = new StepSums(loudnessStepsPerSecond, rateHz);
  }

  push(left: Float32Array, right: Float32Array, frames: number): void {
    const [leftWeighted, rightWeighted] = this.#weighted;
    for (let from = 0; from < frames; from += runFrames) {
      const run = Math.min(runFrames, frames - from);
      this.#filter.process([left.subarray(from), right.subarray(from)], this.#weighted, run);
      this.#sums.push(leftWeighted, rightWeighted, run);
    }
  }

  result(): StepEnergies {
    return this.#sums;
  }
}

/** K-weighted energies of whole channels in steps of 10 ms, each times its weight (default 1), all added. */
export function kEnergies(
  channels: readonly Float32Array[],
  rateHz: number,
  weights: readonly number[] = channels.map(() => 1),
): number[] {
  let total: number[] = [];
  for (let c = 0; c < channels.length; c += 2) {
    const right = channels[c + 1] ?? channels[c];
    const meter = new KEnergyMeter(rateHz);
    meter.push(
      channels[c],
      right,
      Math.max(commonFrames(channels[c], right), commonFrames(channels[0], right)),
    );
    const pair = meter.result();
    const rightWeight = c + 1 < channels.length ? weights[c + 1] : 0;
    total = pair.left.map((energy, k) => (total[k] ?? 0) + energy * weights[c] + pair.right[k] * rightWeight);
  }
  return total;
}

/** Energies of (L, R) together. */
export const stereoSteps = ({ left, right }: StepEnergies): number[] =>
  left.map((energy, k) => energy + right[k]);

/** Energies of (m, m) together, m = (L+R)/2: 2 m^2 = (L^2 + R^2 + 2 L R) / 2. */
export const foldedSteps = ({ left, right, cross }: StepEnergies): number[] =>
  left.map((energy, k) => Math.max(0, (energy + right[k] + 2 * cross[k]) / 2));
