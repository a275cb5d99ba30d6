import type { Pedal, Rig } from "../../../src/rig/model/rig.js";
import type { Routing } from "../../../src/rig/routings/routing.js";
import { routingsOf } from "../../../src/rig/routings/routingsOf.js";
import { blendOf } from "../../../src/rig/wiring/blend.js";
import { pedalBoxes } from "../../../src/rig/wiring/parts.js";
import type { Box, MixerInput, PedalBox, Wiring } from "../../../src/rig/wiring/wiring.js";
import { judgedEffects } from "../../../src/work/crosscheck/judgedEffects.js";
import { pedal, pedalBox } from "../../rigs.js";

/** What the faults are laid at. */
export const faultyRateHz = 16_000;

/** Lays a fault into a wiring; null where there is no place for it. */
export type Fault = (wiring: Wiring) => Wiring | null;

/** In the first pedal that `applies` to. */
const inPedal =
  (applies: (box: PedalBox, wiring: Wiring) => boolean, change: (box: PedalBox) => Partial<Pedal>): Fault =>
  (wiring) => {
    const target = pedalBoxes(wiring).find((box) => applies(box, wiring));
    if (!target) return null;
    const other = { ...target, pedal: { ...target.pedal, ...change(target) } };
    return { ...wiring, boxes: wiring.boxes.map((box) => (box === target ? other : box)) };
  };

/** In a setting of the first pedal that `applies` to. */
const inSetting = (
  applies: (box: PedalBox, wiring: Wiring) => boolean,
  key: string,
  change: (value: number) => number,
): Fault =>
  inPedal(applies, ({ pedal: { settings } }) => ({
    settings: { ...settings, [key]: change(Number(settings[key])) },
  }));

/** In the last input of every mixer: a return, or a right side. */
const inMixer =
  (change: (input: MixerInput) => Partial<MixerInput>): Fault =>
  (wiring) => {
    if (!wiring.boxes.some(({ kind }) => kind === "mixer")) return null;
    const changed = (inputs: readonly MixerInput[]) =>
      inputs.map((input, n) => (n === inputs.length - 1 ? { ...input, ...change(input) } : input));
    const boxes = wiring.boxes.map(
      (box): Box => (box.kind === "mixer" ? { ...box, inputs: changed(box.inputs) } : box),
    );
    return { ...wiring, boxes };
  };

/** A wire that comes so late, ahead of the last input of the destination. */
export const late =
  (frames: number): Fault =>
  ({ boxes, cables }) => {
    const destination = boxes.find(({ kind }) => kind === "destination");
    const cable = cables.findLast(({ to }) => to.box === destination?.id);
    if (!cable) return null;
    const latencyMs = (1000 * frames) / faultyRateHz;
    const wire = pedalBox("late wire", pedal("Late wire", "boost", "mono", { gainDb: 0 }, { latencyMs }));
    const ends = [
      { from: cable.from, to: { box: wire.id, jack: "in" } },
      { from: { box: wire.id, jack: "out" }, to: cable.to },
    ];
    return { boxes: [...boxes, wire], cables: [...cables.filter((each) => each !== cable), ...ends] };
  };

/** One whose LFO is the second engine's own. */
const swings = (box: PedalBox, wiring: Wiring): boolean =>
  "phaseDegrees" in box.pedal.settings &&
  judgedEffects(wiring, faultyRateHz).some((effect) => effect.box === box && effect.by === "nodes");

/** One whose mix is heard: neither fully wet nor wet on one side and dry on the other. */
const isMixed = (box: PedalBox): boolean => {
  const { dry, wet } = blendOf(box);
  return "mix" in box.pedal.settings && !box.fullyWet && dry[0] !== 0 && wet[0] !== 0;
};

const aHundredthOff = (value: number): number => (value > 0.5 ? value - 0.01 : value + 0.01);

export const oneFrameLate = late(1);

/** Each of one line. */
export const faults: Readonly<Record<string, Fault>> = {
  "a side that is one frame late": oneFrameLate,
  "a polarity": inPedal(
    () => true,
    ({ pedal: { invertsPolarity } }) => ({ invertsPolarity: !invertsPolarity }),
  ),
  "a level that is 0.1 dB off": inPedal(
    () => true,
    ({ pedal: { levelDb } }) => ({ levelDb: levelDb + 0.1 }),
  ),
  "a pan that is a tenth off": inMixer(({ pan }) => ({ pan: pan > 0 ? pan - 0.1 : pan + 0.1 })),
  "a return that is 0.1 dB off": inMixer(({ gainDb }) => ({ gainDb: gainDb + 0.1 })),
  "1 % of feedback": inSetting(
    ({ pedal: { model } }) => model === "delay",
    "feedback",
    (feedback) => 0.99 * feedback,
  ),
  "1 degree of an LFO": inSetting(swings, "phaseDegrees", (degrees) => degrees + 1),
  "a mix that is a hundredth off": inSetting(isMixed, "mix", aHundredthOff),
};

/** A box more would load what is ahead of it: the rig in which a fault is heard for itself. */
export const rigFor = (fault: Fault, rig: Rig): Rig =>
  fault === oneFrameLate ? { ...rig, leavesLoadingOut: true } : rig;

/** Routings in which a fault can be laid. */
export const faulty = (rig: Rig, fault: Fault): readonly Routing[] =>
  routingsOf(rig).filter(({ wiring }) => wiring !== null && fault(wiring) !== null);

/** Of those the two that tell most: with a mixer, with two units. */
export function mostTelling(routings: readonly Routing[]): readonly Routing[] {
  const order = ["parallel", "dual-mono", "series-mono"];
  const place = ({ id }: Routing) => (order.includes(id) ? order.indexOf(id) : order.length);
  return routings.toSorted((a, b) => place(a) - place(b)).slice(0, 2);
}
