/** Energies of consecutive steps of time; entry k belongs to step k. Only whole steps are there. */
export interface StepEnergies {
  readonly rateHz: number;
  readonly stepsPerSecond: number;
  readonly left: readonly number[];
  readonly right: readonly number[];
  /** sum(L*R). */
  readonly cross: readonly number[];
}

/**
 * Adds up the energies of a stereo stream in steps of a fixed time. Step k covers the frames from
 * round(k * rateHz / stepsPerSecond) up to the start of step k + 1: where a step is not a whole number of frames,
 * steps differ by one frame and never drift.
 */
export class StepSums implements StepEnergies {
  readonly rateHz: number;
  readonly stepsPerSecond: number;
  readonly left: number[] = [];
  readonly right: number[] = [];
  readonly cross: number[] = [];
  readonly #open = new Float64Array(3);
  #frame = 0;
  #stepEnd: number;

  constructor(stepsPerSecond: number, rateHz: number) {
    this.rateHz = rateHz;
    this.stepsPerSecond = stepsPerSecond;
    this.#stepEnd = stepStart(1, this);
  }

  push(left: Float32Array, right: Float32Array, frames: number): void {
    for (let from = 0; from < frames; ) {
      const to = Math.min(frames, from + this.#stepEnd - this.#frame);
      this.#add(left, right, from, to);
      this.#frame += to - from;
      if (this.#frame === this.#stepEnd) this.#closeStep();
      from = to;
    }
  }

  #add(left: Float32Array, right: Float32Array, from: number, to: number): void {
    let ll = this.#open[0];
    let rr = this.#open[1];
    let lr = this.#open[2];
    for (let n = from; n < to; n++) {
      const l = left[n];
      const r = right[n];
      ll += l * l;
      rr += r * r;
      lr += l * r;
    }
    this.#open[0] = ll;
    this.#open[1] = rr;
    this.#open[2] = lr;
  }

  #closeStep(): void {
    const [ll, rr, lr] = this.#open;
    this.left.push(ll);
    this.right.push(rr);
    this.cross.push(lr);
    this.#open.fill(0);
    this.#stepEnd = stepStart(this.left.length + 1, this);
  }
}

type Grid = Pick<StepEnergies, "rateHz" | "stepsPerSecond">;

/** Frames that steps `first` to `first + count - 1` cover. */
export const framesOfSteps = (first: number, count: number, grid: Grid): number =>
  stepStart(first + count, grid) - stepStart(first, grid);

/** Sum of `count` values from `first` on. */
export function windowSum(values: ArrayLike<number>, first: number, count: number): number {
  let sum = 0;
  for (let k = first; k < first + count; k++) sum += values[k];
  return sum;
}

const stepStart = (step: number, { rateHz, stepsPerSecond }: Grid): number =>
  Math.round((step * rateHz) / stepsPerSecond);
