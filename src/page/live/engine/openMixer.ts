import { wholeGainsOf } from "../../../rig/wiring/boxGains.js";
import { jackKey, loadingChanges } from "../../../rig/wiring/loading.js";
import { returnsOf } from "../../../rig/wiring/returns.js";
import { inputJacks, type MixerBox, outputJacks, type Wiring } from "../../../rig/wiring/wiring.js";

/** Gains of one signal into the left and right side of what is heard. */
export interface SideGains {
  readonly left: number;
  readonly right: number;
}

/**
 * The mixer that a person can turn while the sound goes on: it has a return, and it plays straight into the
 * destination, so that what is heard is a sum of its inputs and nothing else. Null when there is no such mixer.
 */
export function openMixerOf(wiring: Wiring): MixerBox | null {
  const destination = wiring.boxes.find(({ kind }) => kind === "destination");
  const into = wiring.cables.filter(({ to }) => to.box === destination?.id);
  const mixer = wiring.boxes.find(
    (box) => box.kind === "mixer" && into.every(({ from }) => from.box === box.id),
  );
  if (!destination || mixer?.kind !== "mixer" || into.length !== mixer.outputs) return null;
  const isStraight = into.every(
    ({ from, to }) => outputJacks(mixer).indexOf(from.jack) === inputJacks(destination).indexOf(to.jack),
  );
  return isStraight && returnsOf(mixer, wiring).length > 0 ? mixer : null;
}

/**
 * What each input of a mixer gives to each side, as the engine mixes; one output: (left + right) / 2 on both. What the
 * destination's inputs take of its level is in it.
 */
export function mixerGains(wiring: Wiring, mixer: MixerBox): readonly SideGains[] {
  const changes = loadingChanges(wiring);
  const jacks = outputJacks(mixer);
  const [left, right = left] = wholeGainsOf(mixer).map((row, n) => {
    const loss = changes.get(jackKey(mixer.id, jacks[n]))?.gain ?? 1;
    return row.map((gain) => loss * gain);
  });
  return left.map((gain, n) => ({ left: gain, right: right[n] }));
}

/** The same wiring with that mixer's gains, pans and mutes at rest: wirings that differ in nothing else have equal inputs to it. */
export function withMixerAtRest(wiring: Wiring, mixer: MixerBox): Wiring {
  const inputs = mixer.inputs.map(({ muted, ...input }) => ({
    ...input,
    gainDb: 0,
    pan: 0,
    ...(muted === undefined ? {} : { muted: false }),
  }));
  return { ...wiring, boxes: wiring.boxes.map((box) => (box.id === mixer.id ? { ...mixer, inputs } : box)) };
}
