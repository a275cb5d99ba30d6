import { Xorshift } from "../sound/dsp/xorshift.js";

/** One pluck of one string. */
export interface Pluck {
  readonly frequencyHz: number;
  /** Time for the fundamental to fall by 60 dB. */
  readonly decaySeconds: number;
  /** When the string is damped, and what is left falls by 60 dB in `dampedSeconds`; the note's whole length if never. */
  readonly dampAtSeconds: number;
  readonly dampedSeconds: number;
  readonly lengthSeconds: number;
  /** How hard, 0 to 1: softer plucks are duller (and quieter). */
  readonly strength: number;
  /** Where along the string it is plucked, and where the pickup sits, as parts of its length, 0 to 0.5. */
  readonly pickAt: number;
  readonly pickupAt: number;
  /** Which noise the pluck is made of. */
  readonly seed: number;
}

/**
 * A plucked string: a burst of noise of one period goes round a delay line that loses a little, more of the high
 * partials than of the low, on every round.
 *
 *     loop:  y[n] = x[n] + rho * A(z) * H(z) * y[n - N],  H = (1 - S) + S z^-1,  A = (C + z^-1) / (1 + C z^-1)
 *
 * N whole frames, the loss filter's delay S and the all-pass's make up the period exactly, so it is in tune. rho sets
 * the decay: the fundamental loses 60 dB in decaySeconds. The burst has no mean, is softened by a one-pole low-pass
 * (dynamics, softer for softer plucks) and combed by 1 - z^-(pickAt N): partials with a node where the string is
 * plucked stay silent. The pickup is a second such comb, on what leaves.
 *
 * @returns one channel; the peak is about `strength`, not bounded by it
 * Source: Karplus and Strong, "Digital Synthesis of Plucked-String and Drum Timbres", CMJ 7(2), 1983; Jaffe and Smith,
 *   "Extensions of the Karplus-Strong Plucked-String Algorithm", CMJ 7(2), 1983: decay, tuning, dynamics, pick position.
 */
export function pluckString(pluck: Pluck, rateHz: number): Float32Array {
  const { frequencyHz, decaySeconds, dampAtSeconds, dampedSeconds, lengthSeconds, pickupAt } = pluck;
  const { loopFrames, allPass } = tuning(frequencyHz, rateHz);
  const output = new Float32Array(Math.round(lengthSeconds * rateHz));
  const burst = pluckBurst(pluck, loopFrames, rateHz);
  const ringing = loopGain(frequencyHz, decaySeconds, rateHz);
  const damped = loopGain(frequencyHz, dampedSeconds, rateHz);
  const dampAt = Math.round(dampAtSeconds * rateHz);
  const glide = 1 / (0.02 * rateHz);
  const line = new Float64Array(loopFrames);
  const pickupFrames = Math.max(1, Math.round(pickupAt * loopFrames));
  let at = 0;
  let lastOut = 0;
  let passIn = 0;
  let passOut = 0;
  for (let n = 0; n < output.length; n++) {
    const back = line[at];
    const lossy = (1 - stretch) * back + stretch * lastOut;
    lastOut = back;
    const tuned = allPass * (lossy - passOut) + passIn;
    passIn = lossy;
    passOut = tuned;
    const isDamped = n > dampAt ? Math.min(1, (n - dampAt) * glide) : 0;
    const y = (burst[n] ?? 0) + (ringing + (damped - ringing) * isDamped) * tuned;
    line[at] = y;
    let other = at - pickupFrames;
    if (other < 0) other += loopFrames;
    output[n] = y - line[other];
    if (++at === loopFrames) at = 0;
  }
  return output;
}

/** S: how far the loss filter leans on the older sample; at 0.5 highs fade fastest, as on a string of plain wire. */
const stretch = 0.5;

/** The loss filter at `radians` a frame: its gain, and how many frames it delays that frequency. */
function lossFilter(radians: number): { gain: number; delayFrames: number } {
  const re = 1 - stretch + stretch * Math.cos(radians);
  const im = stretch * Math.sin(radians);
  return { gain: Math.hypot(re, im), delayFrames: Math.atan2(im, re) / radians };
}

/** Splits the period into whole frames, the loss filter's delay, and an all-pass for the rest, 0.5 to 1.5 frames. */
function tuning(frequencyHz: number, rateHz: number): { loopFrames: number; allPass: number } {
  const radians = (2 * Math.PI * frequencyHz) / rateHz;
  const periodFrames = rateHz / frequencyHz - lossFilter(radians).delayFrames;
  const loopFrames = Math.floor(periodFrames - 0.5);
  const rest = periodFrames - loopFrames;
  const allPass = Math.sin(((1 - rest) * radians) / 2) / Math.sin(((1 + rest) * radians) / 2);
  return { loopFrames, allPass };
}

/** rho: what a round keeps, so that the fundamental falls by 60 dB in `decaySeconds`. */
function loopGain(frequencyHz: number, decaySeconds: number, rateHz: number): number {
  const aRound = 0.001 ** (1 / (frequencyHz * decaySeconds));
  const gain = aRound / lossFilter((2 * Math.PI * frequencyHz) / rateHz).gain;
  if (gain < 1) return gain;
  throw new RangeError(
    `pluckString: ${frequencyHz} Hz cannot ring for ${decaySeconds} s; the loss filter takes more`,
  );
}

/** One period of noise without mean, softened by how hard the pluck is, then combed by where it is. */
function pluckBurst({ strength, pickAt, seed }: Pluck, loopFrames: number, rateHz: number): Float64Array {
  const noise = new Xorshift(seed);
  const burst = Float64Array.from({ length: loopFrames }, () => noise.next());
  const keep = Math.exp((-2 * Math.PI * 300 * 7 ** strength) / rateHz);
  let soft = 0;
  for (let n = 0; n < loopFrames; n++) {
    soft = (1 - keep) * burst[n] + keep * soft;
    burst[n] = soft;
  }
  const mean = burst.reduce((sum, x) => sum + x, 0) / loopFrames;
  const rms = Math.sqrt(burst.reduce((sum, x) => sum + (x - mean) ** 2, 0) / loopFrames);
  const pickFrames = Math.max(1, Math.round(pickAt * loopFrames));
  const combed = new Float64Array(loopFrames + pickFrames);
  for (let n = 0; n < loopFrames; n++) {
    const x = ((burst[n] - mean) / rms) * 0.3 * strength;
    combed[n] += x;
    combed[n + pickFrames] -= x;
  }
  return combed;
}
