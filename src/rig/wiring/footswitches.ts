import {
  type Box,
  inSignalOrder,
  type MixerBox,
  type PedalBox,
  type SplitterBox,
  type Wiring,
} from "./wiring.js";

/** A pedal's footswitch, or a mute: of a mixer's channel, of a splitter's output. Off, a mute silences what it stands on. */
export type Footswitch = PedalSwitch | Mute;
export interface PedalSwitch {
  /** As `switchId` has it. */
  readonly id: string;
  readonly label: string;
  readonly box: PedalBox;
  readonly jack: null;
}
export interface Mute {
  readonly id: string;
  /** "Mixer, in 2 (mono)". */
  readonly label: string;
  readonly box: MixerBox | SplitterBox;
  /** What it silences. */
  readonly jack: string;
}

/** No box's id holds a line break, so that a mute's never meets a pedal's. @param jack of a mute; null for a pedal */
export const switchId = (box: string, jack: string | null): string =>
  jack === null ? box : `${box}\n${jack}`;

/** Everything to press, in the order of the signal. Two boxes of one pedal are two footswitches; a mute without a cable is none. */
export const footswitchesOf = (wiring: Wiring): readonly Footswitch[] =>
  inSignalOrder(wiring)
    .flatMap(switchesOfBox)
    .filter(({ box, jack }) => jack === null || isCabled(wiring, box.id, jack));

const isCabled = ({ cables }: Wiring, id: string, jack: string): boolean =>
  cables.some(({ from, to }) => [from, to].some((end) => end.box === id && end.jack === jack));

/** The same wiring with these switches off and all others on. @param off ids as `switchId` has them */
export const withSwitchesOff = ({ boxes, cables }: Wiring, off: ReadonlySet<string>): Wiring => ({
  cables,
  boxes: boxes.map((box) =>
    box.kind === "pedal" && box.pedal.hasFootswitch
      ? { ...box, on: !off.has(box.id) }
      : withMutesSet(box, (id) => off.has(id)),
  ),
});

/** A box with each of its mutes, told by id and as it stands, on or open. */
export function withMutesSet<B extends Box>(box: B, isMuted: (id: string, now: boolean) => boolean): B {
  const set = (jack: string, now: boolean) => isMuted(switchId(box.id, jack), now);
  if (box.kind === "splitter" && box.muted)
    return { ...box, muted: box.muted.map((now, n) => set(splitterJack(n), now)) };
  if (box.kind !== "mixer" || mutedJacks(box).length === 0) return box;
  const inputs = box.inputs.map((input) =>
    input.muted === undefined ? input : { ...input, muted: set(input.jack, input.muted) },
  );
  return { ...box, inputs };
}

function switchesOfBox(box: Box): readonly Footswitch[] {
  if (box.kind === "pedal")
    return box.pedal.hasFootswitch ? [{ id: box.id, label: box.label, box, jack: null }] : [];
  if (box.kind !== "mixer" && box.kind !== "splitter") return [];
  return mutedJacks(box).map((jack) => ({
    id: switchId(box.id, jack),
    label: `${box.label}, ${jack}`,
    box,
    jack,
  }));
}

const mutedJacks = (box: MixerBox | SplitterBox): readonly string[] =>
  box.kind === "mixer"
    ? box.inputs.flatMap(({ jack, muted }) => (muted === undefined ? [] : [jack]))
    : (box.muted ?? []).map((_, n) => splitterJack(n));

const splitterJack = (output: number): string => `out ${output + 1}`;
