import { decayGain } from "./decayGain.js";
import { onePoleGain } from "./onePole.js";

/** A line's loss: y[n] = gain x[n] + pole y[n - 1]. */
export interface Absorption {
  readonly gain: number;
  readonly pole: number;
  /** |H| where the decay time is `decaySeconds`. */
  readonly gainAtReference: number;
}

/** Where `decaySeconds` holds exactly. Absorption makes it longer below and shorter above. */
const referenceHz = 1200;

/** At 0 Hz no line may ring longer than this many times `decaySeconds`. */
const longestAtZero = 1.5;

/**
 * The loss of a delay line in a feedback network: sound falls by 60 dB in `decaySeconds` at 1.2 kHz, and in half that
 * time at `dampingHz`. A first-order filter on each line, its loss in dB in proportion to the line's length.
 *
 * @param frames length of the line
 * @param dampingHz over 1.2 kHz; held to 0.49 of the rate
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
  const reference = Math.min(referenceHz, rateHz / 8);
  const damping = Math.min(dampingHz, 0.49 * rateHz);
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
