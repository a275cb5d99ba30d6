/** Running totals of a stereo signal; energies are sums of squares, with full scale 1. */
export interface StereoEnergies {
  readonly left: number;
  readonly right: number;
  /** sum(L*R). */
  readonly cross: number;
  /** M = (L+R)/sqrt2. */
  readonly mid: number;
  /** S = (L-R)/sqrt2. */
  readonly side: number;
}

/**
 * Adds up what the whole-take stereo measures are made of. Mid and side are summed from the samples themselves, not
 * worked out from the other three: two nearly equal sums would leave only rounding errors of a faint side.
 */
export class StereoSums {
  readonly #sums = new Float64Array(5);

  push(left: Float32Array, right: Float32Array, frames: number): void {
    const sums = this.#sums;
    let [ll, rr, lr, mm, ss] = sums;
    for (let n = 0; n < frames; n++) {
      const l = left[n];
      const r = right[n];
      const sum = l + r;
      const difference = l - r;
      ll += l * l;
      rr += r * r;
      lr += l * r;
      mm += sum * sum;
      ss += difference * difference;
    }
    sums[0] = ll;
    sums[1] = rr;
    sums[2] = lr;
    sums[3] = mm;
    sums[4] = ss;
  }

  result(): StereoEnergies {
    const [left, right, cross, twiceMid, twiceSide] = this.#sums;
    return { left, right, cross, mid: twiceMid / 2, side: twiceSide / 2 };
  }
}

/** The totals of two whole channels. @throws RangeError when their lengths differ */
export function stereoEnergies(left: Float32Array, right: Float32Array): StereoEnergies {
  const sums = new StereoSums();
  sums.push(left, right, commonFrames(left, right));
  return sums.result();
}

/** The one length of two channels. @throws RangeError when there are two */
export function commonFrames(left: Float32Array, right: Float32Array): number {
  if (left.length === right.length) return left.length;
  throw new RangeError(
    `left has ${left.length} frames, right has ${right.length}; trim or pad to one length`,
  );
}
