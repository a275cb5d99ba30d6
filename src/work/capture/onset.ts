import { readAt } from "./fractionalRead.js";

/** Where a response begins to sound. Its frames wrap: frame -1 is the last. */
export interface Onset {
  /** The first frame that moves at all: at or before the first arrival, for sound that swells. */
  readonly startFrame: number;
  /** Where the first arrival peaks, to a fraction of a frame. */
  readonly frames: number;
}

/** The first arrival is where a response comes within 20 dB of its peak: ISO 3382-1:2009 5.3.3, from memory. */
const startShare = 0.1;
/**
 * Sound is what moves within 50 dB of the largest step from frame to frame, and clearly over the noise. Steps rather than
 * levels: the lowest octaves, cut off where the sweep starts, ring ahead of everything but hardly move in a frame.
 */
const stepShare = 10 ** (-50 / 20);
const overNoise = 10;
/** From there the peak of the arrival itself is looked for. */
const riseSeconds = 0.0005;
const reach = 80;

/**
 * The first arrival in a circular response, between `least` and `most` frames: the first that is within 20 dB of the
 * largest, at the top of its band-limited curve.
 *
 * @param noiseRms of the noise in each frame
 */
export function onsetOf(
  response: Float64Array,
  least: number,
  most: number,
  noiseRms: number,
  rateHz: number,
): Onset {
  const size = response.length;
  const at = (n: number) => response[n < 0 ? n + size : n >= size ? n - size : n];
  let peak = 0;
  for (let n = least; n <= most; n++) peak = Math.max(peak, Math.abs(at(n)));
  let first = least;
  while (first < most && Math.abs(at(first)) < startShare * peak) first++;
  let top = first;
  const end = Math.min(most, first + Math.max(2, Math.round(riseSeconds * rateHz)));
  for (let n = first; n <= end; n++) if (Math.abs(at(n)) > Math.abs(at(top))) top = n;
  const near = Float64Array.from({ length: 2 * reach + 1 }, (_, n) => at(top - reach + n));
  const offset = topBetween(near, reach - 1, reach + 1);
  let largestStep = 0;
  for (let n = least + 1; n <= most; n++) largestStep = Math.max(largestStep, Math.abs(at(n) - at(n - 1)));
  const step = Math.max(stepShare * largestStep, overNoise * noiseRms);
  let startFrame = least + 1;
  while (startFrame < first && Math.abs(at(startFrame) - at(startFrame - 1)) < step) startFrame++;
  return { startFrame, frames: top - reach + offset };
}

/** Position of the largest size between two frames, by golden sections. */
function topBetween(signal: Float64Array, low: number, high: number): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  const height = (x: number) => Math.abs(readAt(signal, x));
  let [a, b] = [low, high];
  while (b - a > 1e-6) {
    const [c, d] = [b - golden * (b - a), a + golden * (b - a)];
    if (height(c) > height(d)) b = d;
    else a = c;
  }
  return (a + b) / 2;
}
