import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parseRig } from "../../../src/rig/file/parseRig.js";
import type { Pedal, Rig } from "../../../src/rig/model/rig.js";
import type { Routing } from "../../../src/rig/routings/routing.js";
import { routingsOf } from "../../../src/rig/routings/routingsOf.js";
import { blendOf } from "../../../src/rig/wiring/blend.js";
import { pedalBoxes } from "../../../src/rig/wiring/parts.js";
import type { Box, MixerInput, PedalBox, Wiring } from "../../../src/rig/wiring/wiring.js";
import { judgedEffects } from "../../../src/work/crosscheck/judgedEffects.js";
import { firstOf, runsOf } from "../../longForm.js";
import { anyRig } from "../../rig/file/anyRig.js";
import { pedal, pedalBox } from "../../rigs.js";
import { checked } from "./rendered.js";

/**
 * Faults of one line each, laid into the second engine's graph alone: every one must turn every routing red in which it
 * can be heard. Law: a check that passes two different wirings tells nothing.
 */
const rateHz = 16_000;

/** Lays a fault into a wiring; null where there is no place for it. */
type Fault = (wiring: Wiring) => Wiring | null;

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
const late =
  (frames: number): Fault =>
  ({ boxes, cables }) => {
    const destination = boxes.find(({ kind }) => kind === "destination");
    const cable = cables.findLast(({ to }) => to.box === destination?.id);
    if (!cable) return null;
    const latencyMs = (1000 * frames) / rateHz;
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
  judgedEffects(wiring, rateHz).some((effect) => effect.box === box && effect.by === "nodes");

/** One whose mix is heard: neither fully wet nor wet on one side and dry on the other. */
const isMixed = (box: PedalBox): boolean => {
  const { dry, wet } = blendOf(box);
  return "mix" in box.pedal.settings && !box.fullyWet && dry[0] !== 0 && wet[0] !== 0;
};

const aHundredthOff = (value: number): number => (value > 0.5 ? value - 0.01 : value + 0.01);

const oneFrameLate = late(1);

const faults: Readonly<Record<string, Fault>> = {
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

/** Routings in which a fault can be laid. */
const faulty = (rig: Rig, fault: Fault): readonly Routing[] =>
  routingsOf(rig).filter(({ wiring }) => wiring !== null && fault(wiring) !== null);

/** Some of those, of which the ones with a mixer and with two units tell most; in the long form all. */
function checkedWith(rig: Rig, fault: Fault) {
  const order = ["parallel", "dual-mono", "series-mono"];
  const place = ({ id }: Routing) => (order.includes(id) ? order.indexOf(id) : order.length);
  const routings = firstOf(
    faulty(rig, fault).toSorted((a, b) => place(a) - place(b)),
    2,
  );
  return checked(rig, { rateHz, seconds: 0.2 }, { routings, built: (wiring) => fault(wiring) ?? wiring });
}

/** A box more would load what is ahead of it. */
const unloaded = (rig: Rig): Rig => ({ ...rig, leavesLoadingOut: true });

const demo = (name: string): readonly [string, Rig] => {
  const file = new URL(`../../../fixtures/rigs/${name}.yaml`, import.meta.url);
  return [name, parseRig(readFileSync(file, "utf8"), name)];
};

/** What can be heard of settings of chance: what is at its end or next to silent could not be told by anyone. */
const audible: Readonly<Record<string, readonly [number, number]>> = {
  mix: [0.2, 0.8],
  feedback: [0.2, 0.8],
  delayMs: [5, 90],
  depth: [0.3, 1],
  depthMs: [0.3, 2],
  toneHz: [2000, 20_000],
  bassDb: [-6, 6],
  trebleDb: [-6, 6],
  gainDb: [-6, 12],
};

const between = (value: number, [least, most]: readonly [number, number]): number =>
  Math.max(least, Math.min(most, value));

const heard = (rig: Rig): Rig => ({
  ...unloaded(rig),
  mixer: { ...rig.mixer, dryDb: 0, returnDb: -6 },
  pedals: rig.pedals.map((each) => ({
    ...each,
    levelDb: between(each.levelDb, [-6, 6]),
    latencyMs: between(each.latencyMs, [0, 3]),
    settings: Object.fromEntries(
      Object.entries(each.settings).map(([key, value]) => [
        key,
        typeof value === "number" && key in audible ? between(value, audible[key]) : value,
      ]),
    ),
  })),
});

/** A split and a unit behind it, with something that swings and something that is fed back. */
const hasAll = (rig: Rig): boolean =>
  [faults["1 % of feedback"], faults["1 degree of an LFO"]].every((fault) => faulty(rig, fault).length > 4);

const ofChance = fc
  .sample(anyRig(4).map(heard).filter(hasAll), { seed: 15, numRuns: runsOf(2) })
  .map((rig) => [`a rig of chance: ${rig.pedals.map(({ model }) => model).join(", ")}`, rig] as const);

describe.each([demo("ferry-road"), demo("mill-loft"), demo("quay-piano"), ...ofChance])(
  "%s",
  (_name, rig) => {
    test("without a fault, and with a wire that does nothing: within all limits", async () => {
      for (const found of [await checkedWith(rig, (same) => same), await checkedWith(unloaded(rig), late(0))])
        for (const { id, rmsDbfs, withinTarget } of found)
          expect({ id, rmsDbfs, withinTarget }).toMatchObject({ withinTarget: true });
    });

    const possible = Object.entries(faults).filter(([, fault]) => faulty(rig, fault).length > 0);
    test.each(possible)("%s is told", async (_what, fault) => {
      const found = await checkedWith(fault === oneFrameLate ? unloaded(rig) : rig, fault);
      expect(found.length).toBeGreaterThan(0);
      for (const { id, rmsDbfs, targetDbfs, targetBy, withinTarget } of found)
        expect({ id, rmsDbfs, targetDbfs, targetBy, withinTarget }).toMatchObject({ withinTarget: false });
    });
  },
);
