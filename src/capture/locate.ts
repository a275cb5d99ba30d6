import { fftSizeFor } from "../dsp/analysisFft.js";
import { UserError } from "../userError.js";
import { signalOf } from "./spectrum.js";
import { SweepInverse } from "./sweepInverse.js";
import type { ToneLayout } from "./toneLayout.js";

/** A tone's peak stands this far over the median of its surroundings; sound that is not the tone stays below. */
const leastProminence = 60;
/** Player and recorder may differ by this much. */
export const mostDrift = 1e-3;

/**
 * Finds every sweep of the tone in a recording, wherever it starts.
 *
 * @returns the frame where each sweep's loudest arrival begins, one a repeat, in order
 * @throws UserError when the tone is not there, or not all of it
 */
export function locateSweeps(signal: Float32Array, layout: ToneLayout): number[] {
  const heights = responseHeights(signal, layout);
  const peak = largest(heights, 0, heights.length);
  const prominence = heights[peak] / Math.max(medianOf(heights), 1e-30);
  if (!(heights[peak] > 0) || prominence < leastProminence) {
    throw new UserError(
      "the recording does not hold the test tone. Play the tone of `capture tone` through the unit, record it, and give the settings (or the description file) that the tone was made with.",
    );
  }
  const found = repeatsAround(heights, peak, layout);
  const missing = layout.settings.repeats - found.length;
  const end =
    found[0] + layout.markStarts[layout.settings.repeats] + layout.markFrames - layout.sweepStarts[0];
  const seconds = (frames: number) => (frames / layout.settings.rateHz).toFixed(1);
  if (found[0] + layout.markStarts[0] - layout.sweepStarts[0] < 0) {
    throw new UserError(
      "the recording starts after the tone: its first mark is cut off. Start the recorder first, then the player.",
    );
  }
  if (end > signal.length) {
    throw new UserError(
      `the recording is too short: it ends at ${seconds(signal.length)} s, the tone in it at ${seconds(end)} s. Record until the tone is over, or give the number of repeats that was played.`,
    );
  }
  if (missing > 0) {
    throw new UserError(
      `the recording holds ${found.length} of ${layout.settings.repeats} sweeps. Give the settings that the tone was made with, and record it whole, in one go.`,
    );
  }
  return found;
}

/** |response| at every frame of the recording, each sweep in it drawn together to a peak; in blocks of bounded size. */
function responseHeights(signal: Float32Array, layout: ToneLayout): Float32Array {
  const size = fftSizeFor(2 * layout.sweepFrames);
  const inverse = new SweepInverse(layout, size);
  const hop = size - layout.sweepFrames;
  const out = new Float32Array(signal.length);
  for (let start = 0; start < signal.length; start += hop) {
    const block = signalOf(inverse.deconvolve(signal, start, size), inverse.fft);
    const count = Math.min(hop, signal.length - start);
    for (let n = 0; n < count; n++) out[start + n] = Math.abs(block[n]);
  }
  return out;
}

/** The run of repeats, a period apart, that the highest peak belongs to. */
function repeatsAround(heights: Float32Array, peak: number, layout: ToneLayout): number[] {
  const { repeats, rateHz } = layout.settings;
  const period = repeats > 1 ? layout.sweepStarts[1] - layout.sweepStarts[0] : 0;
  const found = [peak];
  for (const direction of [-1, 1]) {
    for (let n = 1; n < repeats && found.length < repeats; n++) {
      const middle = peak + direction * n * period;
      const slack = Math.ceil(mostDrift * n * period + 0.002 * rateHz);
      const at = largest(heights, Math.max(0, middle - slack), Math.min(heights.length, middle + slack + 1));
      if (!(heights[at] > 0.25 * heights[peak])) break;
      found.push(at);
    }
  }
  return found.sort((a, b) => a - b);
}

function largest(values: Float32Array, from: number, to: number): number {
  let best = Math.min(from, values.length - 1);
  for (let n = from; n < to; n++) if (values[n] > values[best]) best = n;
  return best;
}

/** Median of what is not silent, from every 31st value: enough to know the level of the surroundings. */
function medianOf(values: Float32Array): number {
  const some: number[] = [];
  for (let n = 0; n < values.length; n += 31) if (values[n] > 0) some.push(values[n]);
  some.sort((a, b) => a - b);
  return some[some.length >> 1] ?? 0;
}
