import { allPassEnergy } from "./allPassEnergy.js";
import { decayGain } from "./decayGain.js";
import { lowPassPole, onePoleGain } from "./onePole.js";
import {
  decayDiffusion1,
  decayDiffusion2,
  plateHalves,
  plateRateHz,
  plateTapGain,
  plateTaps,
} from "./plateTable.js";

export interface PlateSettings {
  readonly decaySeconds: number;
  readonly dampingHz: number;
  readonly rateHz: number;
}

/** A delay of the tank: its length and the factor by which sound falls on the way through. */
interface PlateDelay {
  readonly frames: number;
  readonly gain: number;
}
export interface PlateHalfDesign {
  readonly swinging: PlateDelay;
  readonly first: PlateDelay;
  readonly second: PlateDelay;
  readonly last: PlateDelay;
  /** Coefficients of the swinging and of the second all-pass. */
  readonly diffusion1: number;
  readonly diffusion2: number;
  /** Pole of the damping. */
  readonly pole: number;
}
export interface PlacedTap {
  readonly half: 0 | 1;
  readonly line: "first" | "second" | "last";
  /** Frames behind the line's input. */
  readonly frames: number;
  readonly gain: number;
}
export interface PlateDesign {
  readonly halves: readonly [PlateHalfDesign, PlateHalfDesign];
  /** `taps[output]`: left, right. */
  readonly taps: readonly (readonly PlacedTap[])[];
}

/**
 * `decaySeconds` holds exactly this many times below `dampingHz`. Below that the decay is hardly longer. Chosen so that T30
 * of the octaves of 500 Hz and 1 kHz and T30 of the whole band both are within 5 % of it with a plate's defaults.
 */
const referenceBelow = 7;

/**
 * The published plate at another rate, with a decay in seconds.
 *
 * Lengths and taps grow with the rate. The paper multiplies by `decay` in two places of each half. Here each delay loses
 * by its own length instead, those inside the all-passes and those up to a tap too. The response is then that of the
 * lossless plate times one exponential: every frequency decays in exactly `decaySeconds`. With lossless all-passes a
 * short decay would end in their ringing (60 dB in 0.6 s at a coefficient of 0.5 and 60 ms), and equal taps would hold
 * its first 0.2 s level.
 * Taps are scaled so that the response has about unit energy where neither filter works, for one input that feeds both
 * halves: echoes are taken as unrelated, so that their energies add.
 */
export function plateDesign(settings: PlateSettings): PlateDesign {
  const { decaySeconds, rateHz } = settings;
  const halves = [halfDesign(0, settings), halfDesign(1, settings)] as const;
  const placed = plateTaps.map((taps) =>
    taps.map(({ half, line, frames, sign }) => {
      const scaled = Math.round((frames * rateHz) / plateRateHz);
      return {
        half,
        line,
        frames: scaled,
        gain: sign * plateTapGain * decayGain(scaled, decaySeconds, rateHz),
      };
    }),
  );
  const level = 1 / Math.sqrt(placed[0].reduce((sum, tap) => sum + tapEnergy(halves, tap), 0));
  return { halves, taps: placed.map((taps) => taps.map((tap) => ({ ...tap, gain: tap.gain * level }))) };
}

function halfDesign(half: 0 | 1, settings: PlateSettings): PlateHalfDesign {
  const { decaySeconds, dampingHz, rateHz } = settings;
  const lengths = plateHalves[half];
  const delay = (length: number): PlateDelay => {
    const frames = Math.round((length * rateHz) / plateRateHz);
    return { frames, gain: decayGain(frames, decaySeconds, rateHz) };
  };
  const pole = lowPassPole(dampingHz, rateHz);
  const [swinging, first, second, last] = [
    delay(lengths.swinging),
    delay(lengths.first),
    delay(lengths.second),
    delay(lengths.last),
  ];
  const lapFrames = swinging.frames + first.frames + second.frames + last.frames;
  return {
    swinging,
    first: { frames: first.frames, gain: first.gain * makeUp(lapFrames, settings) },
    second,
    last,
    diffusion1: decayDiffusion1,
    diffusion2: decayDiffusion2(decayGain(lapFrames / 2, decaySeconds, rateHz)),
    pole,
  };
}

/** What damping takes at the reference is given back, but never so much that low notes would ring 1.5 times as long. */
function makeUp(lapFrames: number, { decaySeconds, dampingHz, rateHz }: PlateSettings): number {
  const most = decayGain(lapFrames, 1.5 * decaySeconds, rateHz) / decayGain(lapFrames, decaySeconds, rateHz);
  const pole = lowPassPole(dampingHz, rateHz);
  return Math.min(most, 1 / onePoleGain(pole, dampingHz / referenceBelow, rateHz));
}

/** Energy that a tap gives, for an impulse of 1 into both halves. */
function tapEnergy(halves: PlateDesign["halves"], { half, line, gain }: PlacedTap): number {
  const { swinging, first, second, diffusion1, diffusion2 } = halves[half];
  const throughHalf = halves.map(energyThrough);
  const entering = (1 + throughHalf[1 - half]) / (1 - throughHalf[0] * throughHalf[1]);
  const inFirst = entering * allPassEnergy(diffusion1, swinging.gain);
  if (line === "first") return gain ** 2 * inFirst;
  const intoSecond = inFirst * first.gain ** 2;
  if (line === "second") return (gain ** 2 * intoSecond) / (1 - (diffusion2 * second.gain) ** 2);
  return gain ** 2 * intoSecond * allPassEnergy(diffusion2, second.gain);
}

const energyThrough = ({ swinging, first, second, last, diffusion1, diffusion2 }: PlateHalfDesign): number =>
  allPassEnergy(diffusion1, swinging.gain) *
  first.gain ** 2 *
  allPassEnergy(diffusion2, second.gain) *
  last.gain ** 2;
