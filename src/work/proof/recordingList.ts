import { modelOf } from "../../rig/pedals/models.js";
import { footswitchesOf, withSwitchesOff } from "../../rig/wiring/footswitches.js";
import type { PedalBox, Wiring } from "../../rig/wiring/wiring.js";
import type { Feed } from "./boardResponse.js";
import { swings } from "./unitSpectra.js";

/** One recording that is asked for: which footswitches are off while the tone plays, and where it goes in. */
export interface AskedRecording {
  /** Ids of boxes whose footswitch is off. */
  readonly off: readonly string[];
  /** Their labels. */
  readonly offLabels: readonly string[];
  readonly feed: Feed;
  /** Labels of pedals that swing while it is made, and of those whose gain hangs on the level. */
  readonly swinging: readonly string[];
  readonly driven: readonly string[];
}

/**
 * What to record of a wiring, in order: everything on, as in the plan; then one for each footswitch. What swings or is driven is off
 * in those, so that each says something exact: first with all such pedals off, then that and one steady pedal off, then
 * each of several swinging ones on by itself: what is driven
 * has no response to read. An instrument with two outputs gets the tone on its left, then on its right.
 */
export function recordingList(wiring: Wiring): readonly AskedRecording[] {
  const switches = footswitchesOf(wiring).flatMap((each) => (each.jack === null ? [each.box] : []));
  const restless = switches.filter((box) => isRestless(box));
  const steady = switches.filter((box) => !isRestless(box));
  const states: (readonly PedalBox[])[] = [[]];
  if (restless.length > 0) states.push(restless);
  states.push(...steady.map((box) => [...restless, box]));
  if (restless.length > 1)
    states.push(
      ...restless
        .filter(({ pedal }) => swings(pedal))
        .map((box) => restless.filter((other) => other !== box)),
    );
  const take = wiring.boxes.find((box) => box.kind === "take");
  const isStereo = take?.kind === "take" && take.channels === 2 && take.outputs === 2;
  const asked = states.map((off) => askedFor(wiring, off, "both"));
  if (!isStereo) return asked;
  const calm = restless.length > 0 ? restless : [];
  return [...asked, askedFor(wiring, calm, "left"), askedFor(wiring, calm, "right")];
}

/** Restless: no fixed response, because it swings or because it is driven. */
const isRestless = ({ pedal }: PedalBox): boolean => swings(pedal) || modelOf(pedal.model).nonlinear;

/** The wiring with its footswitches as for a recording. */
export const inRecording = (wiring: Wiring, { off }: Pick<AskedRecording, "off">): Wiring =>
  withSwitchesOff(wiring, new Set(off));

function askedFor(wiring: Wiring, off: readonly PedalBox[], feed: Feed): AskedRecording {
  const ids = off.map(({ id }) => id);
  const on = wiring.boxes.filter((box): box is PedalBox => box.kind === "pedal" && !ids.includes(box.id));
  return {
    off: ids,
    offLabels: off.map(({ label }) => label),
    feed,
    swinging: on.filter(({ pedal }) => swings(pedal)).map(({ label }) => label),
    driven: on.filter(({ pedal }) => modelOf(pedal.model).nonlinear).map(({ label }) => label),
  };
}
