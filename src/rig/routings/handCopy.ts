import type { HandWiring, Rig } from "../model/rig.js";
import type { PedalBox, Wiring } from "../wiring/wiring.js";
import { drawnByHand } from "./drawnByHand.js";
import type { HandPedalBox } from "./handPedal.js";
import { sameInStereo } from "./otherUnits.js";

/**
 * A wiring of the rig as one drawn by hand, to be changed from there.
 * @throws Error for a wiring of another rig
 */
export const handCopy = (wiring: Wiring, rig: Rig): Omit<HandWiring, "label"> =>
  drawnByHand(wiring, (box) => asHandPedal(box, rig));

/**
 * A pedal's box as it is written in the rig file: by its name, with what is set in another way.
 * @throws Error for a pedal that is not of this rig
 */
function asHandPedal({ pedal, fullyWet }: PedalBox, rig: Rig): HandPedalBox {
  const known = rig.pedals.flatMap((own) => [own, ...own.alternatives]);
  const named = known.find(({ name }) => name === pedal.name);
  const inStereo = rig.pedals.find((own) => sameInStereo(own, rig).name === pedal.name);
  const usual = named ?? (inStereo && sameInStereo(inStereo, rig));
  const name = named?.name ?? inStereo?.name;
  if (!usual || name === undefined) throw new Error(`"${pedal.name}" is no pedal of this rig`);
  const settings = Object.entries(pedal.settings).filter(([key, value]) => usual.settings[key] !== value);
  return {
    box: "pedal",
    pedal: name,
    ...(named ? {} : { stereo: true }),
    fullyWet,
    settings: Object.fromEntries(settings),
  };
}
