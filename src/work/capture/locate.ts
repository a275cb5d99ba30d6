import { fftSizeFor } from "../../sound/dsp/analysisFft.js";
import { UserError } from "../../text/userError.js";
import { mostJumpSeconds } from "./lostBlock.js";
import { SweepInverse } from "./sweepInverse.js";
import { signalOf } from "./sweepSpectrum.js";
import type { ToneLayout } from "./toneLayout.js";

/**
 * A sweep's peak over the RMS within a sweep and a gap around it. Music, speech and noise gave 2 to 12, single knocks up
 * to 35; the tone 20 by a 4 s reverb, 100 under noise as strong as itself, 600 and more by a cable.
 */
const leastProminence = 14;
/** Player and recorder may differ by this much. */
export const mostDrift = 1e-3;

/** Where the sweeps of a tone are. */
export interface FoundSweeps {
  /** The frame where each sweep's loudest arrival begins, one a repeat, in order. */
  readonly arrivals: readonly number[];
  /** The highest peak over the RMS around it: how clearly this is the tone. */
  readonly prominence: number;
}

/** What to say to a recording of something else. */
export const noTone = (): UserError => new UserError(noToneWords);
const noToneWords =
  "the recording does not hold this test tone. Play the tone through the unit and record it, and give the settings (or the description file) that the tone was made with.";
/** True for `noTone`, not for a tone that is cut off. */
export const saysNoTone = (error: unknown): boolean =>
  error instanceof UserError && error.message === noToneWords;

/**
 * Finds every sweep of the tone in a recording, wherever it starts.
 *
 * @throws UserError when the tone is not there, or not all of it
 */
export function locateSweeps(signal: Float32Array, layout: ToneLayout): FoundSweeps {
  const heights = responseHeights(signal, layout);
  const peak = largest(heights, 0, heights.length);
  const prominence = heights[peak] / rmsAround(heights, peak, layout.sweepFrames + layout.gapFrames);
  if (!(prominence > leastProminence)) throw noTone();
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
  return { arrivals: found, prominence };
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
      // A block may be missing between: `lostBlock.ts` tells.
      const slack = Math.ceil(mostDrift * n * period + mostJumpSeconds * rateHz);
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

function rmsAround(values: Float32Array, middle: number, reach: number): number {
  const [from, to] = [Math.max(0, middle - reach), Math.min(values.length, middle + reach)];
  let sum = 0;
  for (let n = from; n < to; n++) sum += values[n] * values[n];
  return Math.sqrt(sum / (to - from));
}
