/** One key of the electric piano. */
export interface Strike {
  readonly frequencyHz: number;
  /** How long the key is down; then the damper falls. */
  readonly heldSeconds: number;
  readonly lengthSeconds: number;
  /** How hard, 0 to 1: harder is louder, and brighter. */
  readonly strength: number;
}

/**
 * A struck tine in front of a pickup, by two means:
 *
 *     y(t) = a(t) sin(w t + I(t) sin w t) + sum of b_k(t) sin(r_k w t)
 *
 * The first term is frequency modulation with the modulator at the carrier's own frequency, which gives all
 * harmonics; the index I falls as the note fades, as does the brightness of a tine that swings less and less far past
 * its pickup. The second is the strike itself: the second and third modes of a bar that is clamped at one end, at
 * r = 6.267 and 17.55 times the first, gone in a tenth of a second.
 *
 * @returns one channel; the peak is below `strength`
 * Source: Chowning, "The Synthesis of Complex Audio Spectra by Means of Frequency Modulation", JAES 21(7), 1973,
 *   section "Simple frequency modulation"; mode ratios: roots of cos(x) cosh(x) = -1, squared, closed form. Times and
 *   levels are by ear.
 */
export function strikeTine(
  { frequencyHz, heldSeconds, lengthSeconds, strength }: Strike,
  rateHz: number,
): Float32Array {
  const step = (2 * Math.PI * frequencyHz) / rateHz;
  // Low notes ring longer, as long bars do.
  const ring = fall(9 * (110 / frequencyHz) ** 0.55, rateHz);
  const damped = fall(0.25, rateHz);
  const mellow = fall(7, rateHz);
  const modes = barModes.map(({ ratio, level, seconds }) => ({
    step: step * ratio,
    level: step * ratio < Math.PI ? level * strength ** 2 : 0,
    keep: fall(seconds, rateHz),
  }));
  const heldFrames = Math.round(heldSeconds * rateHz);
  const attackFrames = 0.0015 * rateHz;
  const output = new Float32Array(Math.round(lengthSeconds * rateHz));
  const levels = modes.map(({ level }) => level);
  let level = 0.62 * strength;
  let index = 0.4 + 2.6 * strength ** 1.5 * Math.min(1, (220 / frequencyHz) ** 0.5);
  let damper = 1;
  for (let n = 0; n < output.length; n++) {
    const angle = step * n;
    let y = level * Math.sin(angle + index * Math.sin(angle));
    for (let k = 0; k < modes.length; k++) {
      y += levels[k] * Math.sin(modes[k].step * n);
      levels[k] *= modes[k].keep;
    }
    level *= ring;
    index *= mellow;
    if (n > heldFrames) damper *= damped;
    output[n] = y * damper * (n < attackFrames ? n / attackFrames : 1);
  }
  return output;
}

const barModes = [
  { ratio: 6.2669, level: 0.2, seconds: 0.4 },
  { ratio: 17.5475, level: 0.1, seconds: 0.15 },
];

/** What a frame keeps when 60 dB are to be lost in `seconds`. */
const fall = (seconds: number, rateHz: number): number => 0.001 ** (1 / (seconds * rateHz));
