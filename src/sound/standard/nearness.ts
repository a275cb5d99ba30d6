import { gainToDb, msToFrames } from "../dsp/units.js";

/** Who renders standard nodes: the library in Node, which computes in doubles, or a browser, mostly in singles. */
export type Renderer = "library" | "browser";

/**
 * How near two right engines come, in dB of RMS against the loudest signal in a wiring: what a twin of standard nodes may
 * be apart from its kernel. All figures are ours, measured on white noise by `web-audio-api`, Chromium and Firefox, with
 * about 7 to 15 dB to spare; DEVELOPERS.md has what was measured.
 */
export interface Nearness extends Readonly<Record<Renderer, number>> {
  /** What sets the limit, in a few words. */
  readonly why: string;
}

/**
 * Gains, whole delays, loops of them, convolvers, swinging gains: single precision, -150 dB a step, of which the lows of a
 * loop with much feedback gather more in browsers.
 */
export const rounding: Nearness = { library: -120, browser: -105, why: "rounding" };

/**
 * A DelayNode that swings. Its delay is a time in seconds, in browsers of single precision: the place that is read is
 * delayFrames 2^-24 off, and no better than that of a short one. White noise takes a place's error up by 5 dB.
 */
export function swungDelay(longestMs: number, rateHz: number): Nearness {
  const placeDb = gainToDb(msToFrames(longestMs, rateHz) * 2 ** -24);
  return { library: -95, browser: Math.max(-92, placeDb + 5), why: "a delay that swings" };
}

/**
 * BiquadFilterNodes: Chromium keeps their state in single precision, and the lower the corner, the more of its rounding
 * comes round again: by (rate / corner)^1.5.
 */
export function biquads(lowestHz: number, rateHz: number): Nearness {
  const browser = -70 - 30 * Math.log10((lowestHz / 40) * (48_000 / rateHz));
  return { library: rounding.library, browser: Math.max(rounding.browser, browser), why: "low filters" };
}

/**
 * Filters that sweep: the standard's second-order form and two of first order keep other states, and part by about what
 * their corner moves in its own time constant, stages lfoHz octaves / (2 pi centreHz); white noise tells 5 to 20 dB less,
 * a sound that is all near the corner as much.
 */
export function sweptFilters(sweep: {
  readonly stages: number;
  readonly lfoHz: number;
  readonly sweepOctaves: number;
  readonly centreHz: number;
}): Nearness {
  const { stages, lfoHz, sweepOctaves, centreHz } = sweep;
  const moved = (stages * lfoHz * sweepOctaves) / (2 * Math.PI * centreHz);
  const parted = Math.max(rounding.library, gainToDb(moved));
  return { library: parted, browser: parted, why: "a filter that sweeps" };
}
