import { decayGain } from "./decayGain.js";
import { onePoleGain } from "./onePole.js";

/** A line's loss: y[n] = gain x[n] + pole y[n - 1]. */
export interface Absorption {
  readonly gain: number;
  readonly pole: number;
  /** |H| where the decay time is `decaySeconds`. */
  readonly gainAtReference: number;
}

/**
 * `decaySeconds` holds exactly this many times below `dampingHz`. Below that the decay is hardly longer. Chosen so that T30
 * of the octaves of 500 Hz and 1 kHz and T30 of the whole band both are within 5 % of it with a hall's defaults.
 */
const referenceBelow = 7.5;

/** At 0 Hz no line may ring longer than this many times `decaySeconds`. */
const longestAtZero = 1.5;

/**
 * The loss of a delay line in a feedback network: sound falls by 60 dB in `decaySeconds` at low and middle
 * frequencies, and in half that time at `dampingHz`. A first-order filter on each line, its loss in dB in proportion to the line's length.
 *
 * @param frames length of the line
 * @param dampingHz held to 0.49 of the rate
 * Source: J.-M. Jot and A. Chaigne, "Digital delay networks for designing artificial reverberators", AES 90th
 * Convention, 1991. They match at 0 Hz and half the rate; matching at two frequencies keeps the sound when the rate
 * changes.
 */
export function absorption(line: {
  readonly frames: number;
  readonly decaySeconds: number;
  readonly dampingHz: number;
  readonly rateHz: number;
}): Absorption {
  const { frames, decaySeconds, dampingHz, rateHz } = line;
  const gainAtReference = decayGain(frames, decaySeconds, rateHz);
  const atZero = decayGain(frames, longestAtZero * decaySeconds, rateHz) / gainAtReference;
  const damping = Math.min(dampingHz, 0.49 * rateHz);
  const reference = damping / referenceBelow;
  const pole = Math.min(
    poleForRatio(gainAtReference ** -2, reference, damping, rateHz),
    poleForRatio(atZero ** 2, 0, reference, rateHz),
  );
  return {
    gain: (gainAtReference * (1 - pole)) / onePoleGain(pole, reference, rateHz),
    pole,
    gainAtReference,
  };
}

/**
 * The pole p for which |H|^2 = 1 / (1 - 2 p cos w + p^2) is `ratio` times as large at `lowHz` as at `highHz`:
 * (R - 1) p^2 - 2 (R cos w1 - cos w2) p + (R - 1) = 0. Where no first-order filter falls so steeply: 1.
 */
function poleForRatio(ratio: number, lowHz: number, highHz: number, rateHz: number): number {
  const cosine = (hz: number) => Math.cos((2 * Math.PI * hz) / rateHz);
  const half = ratio * cosine(lowHz) - cosine(highHz);
  const rest = ratio - 1;
  return half > rest ? (half - Math.sqrt(half * half - rest * rest)) / rest : 1;
}
