import { fftSizeFor } from "../../sound/dsp/analysisFft.js";
import { realFftOf } from "../../sound/dsp/realAnalysisFft.js";
import { UserError } from "../../text/userError.js";
import { readStretched } from "./fractionalRead.js";
import { fitPhaseSlope } from "./phaseSlope.js";
import { crossSpectrum, highestLag, spectrumOf } from "./sweepSpectrum.js";
import { markBandHz, type ToneLayout } from "./toneLayout.js";

/** Marks come this much out of step before a clock is said to jump; one that drifts gently stays well within. */
const leastJumpFrames = 6;
/** Blocks that an interface loses are shorter; as much is looked for. */
export const mostJumpSeconds = 0.1;
/** No clock is further off than this, whatever one that jumps looks like. */
const mostDrift = 3e-4;
/** Windows in which two sweeps are compared. */
const windowSeconds = 0.02;
/** Energy of a difference to that of the sound: less is the same sound, more is another one. */
const sameShare = 0.03;
const otherShare = 0.1;
/** A disturbance takes at most this share of a sweep; the rest is the same within this. */
const mostDisturbed = 0.1;
const calmShare = 1e-3;

/**
 * Looks for a block that the interface lost, put in or garbled: marks that come out of step all at once, with each half
 * of the sweep between like that of another sweep; or a short stretch in which one sweep is unlike the other.
 *
 * A unit that moves makes sweeps unlike all along, and is none of this. Needs two sweeps.
 * @param arrivals where each sweep's loudest arrival begins
 * @throws UserError saying what happened, where
 */
export function refuseLostBlocks(
  signal: Float32Array,
  layout: ToneLayout,
  arrivals: readonly number[],
): void {
  const { repeats, rateHz } = layout.settings;
  if (repeats < 2) return;
  const marks = markPlaces(signal, layout, arrivals);
  const period = layout.markStarts[1] - layout.markStarts[0];
  const off = marks.slice(1).map((place, k) => place - marks[k] - period);
  const at = (frame: number) => `${(frame / rateHz).toFixed(2)} s`;
  if (Math.max(...off) - Math.min(...off) > leastJumpFrames) {
    for (let k = 0; k < repeats; k++) {
      const jump = jumpIn(k, signal, layout, marks, off, period);
      if (jump === null) continue;
      const count = Math.abs(Math.round(jump.frames));
      throw new UserError(
        `the recording ${jump.frames < 0 ? "lost" : "gained"} about ${count} frames (${((1000 * count) / rateHz).toFixed(1)} ms) at about ${at(jump.at)}: the interface dropped a block, or a clock jumped. Record again with a larger buffer, player and recorder on one clock.`,
      );
    }
    return;
  }
  const disturbed = disturbance(signal, layout, marks, period);
  if (disturbed === null) return;
  const ms = ((1000 * (disturbed.to - disturbed.from)) / rateHz).toFixed(0);
  throw new UserError(
    `the recording is disturbed for about ${ms} ms at ${at(disturbed.from)}: a block that the interface lost or played twice, or a knock. The sweeps are alike everywhere else. Record again, with a larger buffer.`,
  );
}

/** Frames at which the marks come, by their distance from the first; what a unit does to one it does to all. */
function markPlaces(signal: Float32Array, layout: ToneLayout, arrivals: readonly number[]): number[] {
  const { rateHz, gapSeconds } = layout.settings;
  const ahead = Math.round(mostJumpSeconds * rateHz);
  const count = layout.markFrames + 2 * ahead + Math.round(Math.min(0.3, gapSeconds / 2) * rateHz);
  const fft = realFftOf(fftSizeFor(2 * count));
  const startOf = (k: number) => {
    const sweep = Math.max(0, k - 1);
    return arrivals[sweep] + layout.markStarts[k] - layout.sweepStarts[sweep] - ahead;
  };
  const first = spectrumOf(signal, fft, startOf(0), count);
  return layout.markStarts.map((_, k) => {
    if (k === 0) return startOf(0);
    const cross = crossSpectrum(
      first,
      spectrumOf(signal, fft, startOf(k), count),
      rateHz,
      markBandHz(layout),
    );
    return startOf(k) + fitPhaseSlope(cross, highestLag(cross, fft, ahead)).delayFrames;
  });
}

/** A jump in one interval between marks, taken that the clock runs evenly in the others; null where the sweeps say no. */
function jumpIn(
  k: number,
  signal: Float32Array,
  layout: ToneLayout,
  marks: readonly number[],
  off: readonly number[],
  period: number,
): { readonly frames: number; readonly at: number } | null {
  const others = off.filter((_, j) => j !== k);
  const drift = others.reduce((sum, each) => sum + each, 0) / others.length / period;
  const frames = off[k] - drift * period;
  if (Math.abs(drift) > mostDrift || Math.abs(frames) < leastJumpFrames) return null;
  const other = k === 0 ? 1 : 0;
  const stretch = 1 + drift;
  const from = layout.markFrames;
  const count = period - from;
  const read = (mark: number) => readStretched(signal, mark + from * stretch, stretch, count);
  const like = read(marks[other]);
  const before = unlikeness(like, read(marks[k]), layout);
  const after = unlikeness(like, read(marks[k + 1] - period * stretch), layout);
  const counted = before.flatMap((share, w) => (share === null ? [] : [w]));
  let [best, split] = [Number.POSITIVE_INFINITY, 0];
  for (let n = 0; n <= counted.length; n++) {
    const shares = counted.flatMap((w, m) =>
      Math.abs(m - n) <= 1 ? [] : [Math.min(1, (m < n ? before[w] : after[w]) ?? 0)],
    );
    const mean = shares.reduce((sum, share) => sum + share, 0) / shares.length;
    if (mean < best) [best, split] = [mean, n];
  }
  if (!(best < sameShare)) return null;
  const window = Math.round(windowSeconds * layout.settings.rateHz);
  return { frames, at: marks[k] + from + (counted[split] ?? counted.at(-1) ?? 0) * window };
}

/** A short stretch in which one sweep is unlike the first, the rest alike; null where there is none. */
function disturbance(
  signal: Float32Array,
  layout: ToneLayout,
  marks: readonly number[],
  period: number,
): { readonly from: number; readonly to: number } | null {
  const { repeats, rateHz } = layout.settings;
  const stretch = (marks[repeats] - marks[0]) / (repeats * period);
  const from = layout.markFrames;
  const sweeps = Array.from({ length: repeats }, (_, k) =>
    readStretched(signal, marks[k] + from * stretch, stretch, period - from),
  );
  const window = Math.round(windowSeconds * rateHz);
  for (let k = 1; k < repeats; k++) {
    const shares = unlikeness(sweeps[0], sweeps[k], layout);
    const known = shares.flatMap((share) => share ?? []).sort((a, b) => a - b);
    const calm = known[Math.floor(0.8 * known.length)] ?? 1;
    const bad = shares.flatMap((share, w) => ((share ?? 0) > otherShare ? [w] : []));
    if (bad.length === 0 || bad.length > mostDisturbed * known.length || calm > calmShare) continue;
    const [first, last] = [bad[0], bad[bad.length - 1]];
    const energy = (sweep: Float64Array) =>
      sweep.subarray(first * window, (last + 1) * window).reduce((sum, x) => sum + x * x, 0);
    const faulty = energy(sweeps[0]) < energy(sweeps[k]) ? 0 : k;
    const start = marks[faulty] + from * stretch;
    return { from: start + first * window, to: start + (last + 1) * window };
  }
  return null;
}

/** Window by window, energy of the difference to the mean energy of both; null where it is too soft to count. */
function unlikeness(a: Float64Array, b: Float64Array, layout: ToneLayout): (number | null)[] {
  const window = Math.round(windowSeconds * layout.settings.rateHz);
  const count = Math.floor(a.length / window);
  const sums = Array.from({ length: count }, (_, w) => {
    let [difference, both] = [0, 0];
    for (let n = w * window; n < (w + 1) * window; n++) {
      difference += (a[n] - b[n]) ** 2;
      both += a[n] ** 2 + b[n] ** 2;
    }
    return { difference, both };
  });
  const loudest = Math.max(...sums.map(({ both }) => both));
  return sums.map(({ difference, both }) => (both > softShare * loudest ? (2 * difference) / both : null));
}

/** Windows 30 dB under the loudest say more of noise than of the sweep. */
const softShare = 1e-3;
