import type { Rig } from "../../rig/model/rig.js";
import type { PedalUse } from "../../rig/pedals/pedalModel.js";
import type { RoutingChoice } from "../../rig/routings/chooseRoutings.js";
import { type HeldTake, perChannel } from "../../sound/audio/takeSource.js";
import { initialiseFft } from "../../sound/dsp/fft.js";
import { redrawn, withMeasuredReturns } from "../returns/measuredReturns.js";

/** The sound that both engines play. */
export interface CheckedSound {
  readonly take: HeldTake;
  readonly rateHz: number;
  /** Sound files that settings name, at that rate. */
  readonly clips: PedalUse["clips"];
}

/** How both engines read between frames: as the standard's DelayNode does. */
export const checkedInterpolation = "linear";

/** Tails are compared as far as this. */
export const checkedTailSeconds = 3;

/** Silence ahead of the take: an oversampling filter rings ahead of a sound that begins abruptly, and nodes begin with it. */
export const leadFrames = 1024;

/** The same sound behind that silence. */
export const afterSilence = (sound: CheckedSound): CheckedSound => ({
  ...sound,
  take: perChannel(sound.take, (channel) => {
    const later = new Float32Array(leadFrames + channel.length);
    later.set(channel, leadFrames);
    return later;
  }),
});

/** The rig and its routings with the levels of returns that it leaves open, measured on what is checked, whatever was measured before. */
export async function withCheckedReturns(rig: Rig, choice: RoutingChoice, sound: CheckedSound) {
  await initialiseFft();
  const played = { ...afterSilence(sound), interpolation: checkedInterpolation } as const;
  const untrimmed = redrawn({ ...rig, returnTrims: {} }, choice);
  return withMeasuredReturns(untrimmed.rig, untrimmed.choice, { ...played, tailSeconds: checkedTailSeconds });
}
