import { powerToDb } from "../../sound/dsp/units.js";
import { bandEnergy, bandGainDb } from "./passband.js";

/** A spike at the start of a response: dry sound that gets through. */
export interface DryLeak {
  /** Its level, to the full level of the tone: mean over log frequency from 1 kHz up. */
  readonly levelDb: number;
  /** Its energy in the tone's band to that of all that follows; null when nothing does. */
  readonly toWetDb: number | null;
  /** Its highest third octave from 1 kHz up against its lowest, dB: near 0 for a click, which a dry path passes. */
  readonly unevenDb: number;
}

/** The spike is this much on either side of the first arrival. */
const spikeSeconds = 0.0005;
/** What follows right after it, for comparison. */
const afterSeconds = [0.002, 0.05] as const;
/** A peak this far over the mean level of what follows is a spike and not the start of a tail. */
const spikeDb = 20;
/** Above this, what follows is nothing. */
const nothingDb = 70;

/**
 * The dry sound in a response: the energy of its first arrival, when that stands clear of what follows (a peak 20 dB
 * over the mean level from 2 to 50 ms later; common practice, no source); null when the response starts with its tail. A
 * wet path that opens with one sharp tap, as some plates do, cannot be told from a leak.
 */
export function dryLeakOf(
  response: Float32Array,
  onsetFrame: number,
  rateHz: number,
  bandHz: readonly [number, number],
): DryLeak | null {
  const reach = spikeFrames(rateHz);
  const [from, to] = afterSeconds.map((seconds) => onsetFrame + Math.round(seconds * rateHz));
  const peak = response[onsetFrame] ** 2;
  const following = response.subarray(from, to).reduce((sum, x) => sum + x * x, 0) / (to - from);
  if (!(peak > 0) || powerToDb(peak / following) < spikeDb) return null;
  const spike = response.subarray(Math.max(0, onsetFrame - reach), onsetFrame + reach + 1);
  const spikeEnergy = bandEnergy(spike, rateHz, bandHz);
  const wetEnergy = bandEnergy(response.subarray(onsetFrame + reach + 1), rateHz, bandHz);
  const levelBandHz = [Math.min(1 / (2 * spikeSeconds), bandHz[1] / 2), bandHz[1]] as const;
  const toWetDb = powerToDb(spikeEnergy / wetEnergy);
  return {
    levelDb: bandGainDb(spike, rateHz, levelBandHz),
    toWetDb: toWetDb > nothingDb ? null : toWetDb,
    unevenDb: unevenDb(spike, rateHz, levelBandHz),
  };
}

function unevenDb(spike: Float32Array, rateHz: number, [fromHz, toHz]: readonly [number, number]): number {
  const levels: number[] = [];
  for (let hz = fromHz; hz * 2 ** (1 / 3) <= 0.9 * toHz; hz *= 2 ** (1 / 3))
    levels.push(bandGainDb(spike, rateHz, [hz, hz * 2 ** (1 / 3)]));
  return levels.length === 0 ? 0 : Math.max(...levels) - Math.min(...levels);
}

/** Frames of a spike either side of its peak. */
export const spikeFrames = (rateHz: number): number => Math.max(8, Math.round(spikeSeconds * rateHz));

/** How far the larger of peak and dip at the start must stand out for a polarity to be told. */
const clearRatio = 1.25;
const polaritySeconds = 0.002;

/** True when the first 2 ms swing further down than up; null when neither clearly wins, as in the start of a tail. */
export function invertsAtStart(
  response: ArrayLike<number>,
  onsetFrame: number,
  rateHz: number,
): boolean | null {
  let [up, down] = [0, 0];
  const end = Math.min(response.length, onsetFrame + Math.round(polaritySeconds * rateHz));
  for (let n = Math.max(0, onsetFrame - 8); n < end; n++) {
    up = Math.max(up, response[n]);
    down = Math.max(down, -response[n]);
  }
  if (up > clearRatio * down) return false;
  return down > clearRatio * up ? true : null;
}
