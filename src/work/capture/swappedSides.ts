import { UserError } from "../../text/userError.js";
import type { Clock } from "./clock.js";
import { readStretched } from "./fractionalRead.js";
import { recordedNoise } from "./recordedNoise.js";
import type { Side } from "./recordedSides.js";
import type { SweepInverse } from "./sweepInverse.js";
import { firstArrival, meanSpectrum } from "./sweepRepeats.js";
import { signalOf } from "./sweepSpectrum.js";

/** Nothing that goes through a unit comes ahead of a cable; converters of two inputs differ by less than this. */
const slackFrames = 2;
/** A cable and converters ring no longer than this after their arrival, but for this share of their energy. */
const cableSeconds = 0.02;
const cableShare = 0.05;

/** @throws UserError when the side that was named as the plain cable holds the unit */
export function refuseSwapped(unit: Side, reference: Side, clock: Clock, inverse: SweepInverse): void {
  const { rateHz } = inverse.layout.settings;
  const [ofUnit, ofCable] = [unit, reference].map((side) => arrivalOf(side, clock, inverse));
  const earlyFrames = ofCable.frames - ofUnit.frames;
  if (earlyFrames <= slackFrames && (ofCable.isShort || !ofUnit.isShort)) return;
  const why =
    earlyFrames > slackFrames
      ? `sounds ${((1000 * earlyFrames) / rateHz).toFixed(2)} ms after the other one`
      : "rings on, and the other one does not";
  throw new UserError(
    `the sides look swapped: the ${reference.name} side, named as the plain cable, ${why}. Name the other: --reference-channel ${unit.name}.`,
  );
}

function arrivalOf(side: Side, clock: Clock, inverse: SweepInverse): { frames: number; isShort: boolean } {
  const { layout, fft } = inverse;
  const { rateHz, repeats } = layout.settings;
  const straight = readStretched(side.samples, clock.origin, clock.stretch, layout.frames);
  const noise = recordedNoise(straight, clock, inverse).responsePower / repeats;
  const response = signalOf(meanSpectrum(straight, inverse), fft);
  const { frames } = firstArrival(response, noise, inverse);
  const reach = Math.round(cableSeconds * rateHz);
  const end = Math.min(layout.gapFrames, fft.size >> 1);
  let [near, all] = [0, 0];
  for (let n = Math.round(frames) - reach; n < end; n++) {
    const energy = response[n < 0 ? n + fft.size : n] ** 2 - noise;
    all += energy;
    if (n < Math.round(frames) + reach) near += energy;
  }
  return { frames, isShort: all - near < cableShare * all };
}
