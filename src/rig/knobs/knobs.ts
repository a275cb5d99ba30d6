import type { Setting, SettingValue } from "../../sound/dsp/kernel.js";
import { mixerBounds, pedalBounds } from "../model/bounds.js";
import { chainOf } from "../model/chain.js";
import { type HandBox, type HandWiring, type Pedal, placeChoices, type Rig } from "../model/rig.js";
import { modelOf } from "../pedals/models.js";
import { handPedalOf } from "../routings/handPedal.js";
import { whyImpossible } from "../routings/sense.js";

/** One thing on a rig that can be set, and how to set it. */
export interface Knob {
  /** "Boiler tank.mix", "mixer.returnDb", "secondUnit.Boiler tank.mix", "one-return.mixer.in 3.pan". */
  readonly path: string;
  readonly setting: Setting;
  /** As the rig has it; null: not said. */
  readonly value: SettingValue | null;
  /** The rig with this set to `value`; the other knobs stay. */
  readonly turn: (rig: Rig, value: SettingValue) => Rig;
}

/** Everything that can be set on a rig, each under a name of its own. */
export function knobsOf(rig: Rig): readonly Knob[] {
  return [
    ...rig.pedals.flatMap(pedalKnobs),
    ...mixerKnobs(rig),
    ...chainOf(rig).units.map((unit) => placeKnob(unit, rig)),
    ...chainOf(rig).units.flatMap((unit) => [
      ...otherUnitKnobs("secondUnit", unit, rig),
      ...otherUnitKnobs("stereoUnit", unit, rig),
    ]),
    ...Object.entries(rig.wirings).flatMap(([id, wiring]) => wiringKnobs(id, wiring, rig)),
  ];
}

const tableOf = (pedal: Pedal) => Object.entries(modelOf(pedal.model).settings);

function pedalKnobs(pedal: Pedal): Knob[] {
  const { name } = pedal;
  const change = (rig: Rig, changed: (pedal: Pedal) => Pedal): Rig => ({
    ...rig,
    pedals: rig.pedals.map((candidate) => (candidate.name === name ? changed(candidate) : candidate)),
  });
  const settings = tableOf(pedal).map(
    ([key, setting]): Knob => ({
      path: `${name}.${key}`,
      setting,
      value: pedal.settings[key] ?? null,
      turn: (rig, value) =>
        change(
          withFollowers(rig, { pedal, key, setting, value }),
          (before): Pedal => ({ ...before, settings: { ...before.settings, [key]: value } }),
        ),
    }),
  );
  const numbers = (["latencyMs", "levelDb", "dryLeakDb"] as const).map(
    (key): Knob => ({
      path: `${name}.${key}`,
      setting: { default: 0, ...pedalBounds[key] },
      value: pedal[key],
      turn: (rig, value) => change(rig, (before): Pedal => ({ ...before, [key]: value })),
    }),
  );
  const switches = (["invertsPolarity", "canGoFullyWet"] as const).map(
    (key): Knob => ({
      path: `${name}.${key}`,
      setting: { default: false },
      value: pedal[key],
      turn: (rig, value) => change(rig, (before): Pedal => ({ ...before, [key]: value })),
    }),
  );
  return [...settings, ...numbers, ...switches];
}

interface Turned {
  readonly pedal: Pedal;
  readonly key: string;
  readonly setting: Setting;
  readonly value: SettingValue;
}

/**
 * A second or stereo unit whose own setting differs from the first's goes along when the first is turned: in the same
 * ratio, or by the same difference for settings that can be negative, within the setting's bounds.
 */
function withFollowers(rig: Rig, { pedal, key, setting, value }: Turned): Rig {
  const from = pedal.settings[key];
  const follow = (differences: Rig["secondUnit"]): Rig["secondUnit"] => {
    const own = differences[pedal.name]?.[key] ?? differences["*"]?.[key];
    if (!("min" in setting) || typeof own !== "number") return differences;
    if (typeof from !== "number" || typeof value !== "number") return differences;
    const moved = setting.min >= 0 && from > 0 ? own * (value / from) : own + (value - from);
    const bounded = Math.min(setting.max, Math.max(setting.min, setting.whole ? Math.round(moved) : moved));
    return { ...differences, [pedal.name]: { ...differences[pedal.name], [key]: bounded } };
  };
  return { ...rig, secondUnit: follow(rig.secondUnit), stereoUnit: follow(rig.stereoUnit) };
}

function mixerKnobs(rig: Rig): Knob[] {
  const bounds = { dryDb: mixerBounds.gainDb, returnDb: mixerBounds.gainDb, returnPan: mixerBounds.pan };
  return (["dryDb", "returnDb", "returnPan"] as const).map((key) => ({
    path: `mixer.${key}`,
    setting: { default: 0, ...bounds[key] },
    value: rig.mixer[key],
    turn: (before, value) => ({ ...before, mixer: { ...before.mixer, [key]: value } }),
  }));
}

/** Where a unit goes in the routing `as-placed`. */
function placeKnob({ name }: Pedal, rig: Rig): Knob {
  const choices = placeChoices.filter((place) => whyImpossible(rig, place) === null);
  return {
    path: `place.${name}`,
    setting: { default: choices[0], choices },
    value: rig.places[name] ?? null,
    turn: (before, value) => {
      const place = placeChoices.find((choice) => choice === value);
      return place ? { ...before, places: { ...before.places, [name]: place } } : before;
    },
  };
}

function otherUnitKnobs(which: "secondUnit" | "stereoUnit", unit: Pedal, rig: Rig): Knob[] {
  const differences = { ...rig[which]["*"], ...rig[which][unit.name] };
  return tableOf(unit).map(([key, setting]) => ({
    path: `${which}.${unit.name}.${key}`,
    setting,
    value: differences[key] ?? unit.settings[key] ?? null,
    turn: (before, value) => ({
      ...before,
      [which]: { ...before[which], [unit.name]: { ...before[which][unit.name], [key]: value } },
    }),
  }));
}

function wiringKnobs(id: string, wiring: HandWiring, rig: Rig): Knob[] {
  return Object.entries(wiring.boxes).flatMap(([box, hand]) => {
    const change = (before: Rig, changed: HandBox): Rig => {
      const drawn = before.wirings[id];
      const boxes = { ...drawn?.boxes, [box]: changed };
      return { ...before, wirings: { ...before.wirings, [id]: { ...wiring, ...drawn, boxes } } };
    };
    const now = (before: Rig) => before.wirings[id]?.boxes[box] ?? hand;
    if (hand.box === "pedal") return handPedalKnobs(`${id}.${box}`, hand, rig, now, change);
    return hand.box === "mixer" ? handMixerKnobs(`${id}.${box}`, hand, now, change) : [];
  });
}

type Change = (rig: Rig, changed: HandBox) => Rig;
type Now = (rig: Rig) => HandBox;

function handPedalKnobs(
  path: string,
  hand: HandBox & { box: "pedal" },
  rig: Rig,
  now: Now,
  change: Change,
): Knob[] {
  const found = handPedalOf(rig, hand);
  if (!found) return [];
  return tableOf(found.pedal).map(([key, setting]) => ({
    path: `${path}.${key}`,
    setting,
    value: found.pedal.settings[key] ?? null,
    turn: (before, value) => {
      const box = now(before);
      return box.box === "pedal"
        ? change(before, { ...box, settings: { ...box.settings, [key]: value } })
        : before;
    },
  }));
}

function handMixerKnobs(path: string, hand: HandBox & { box: "mixer" }, now: Now, change: Change): Knob[] {
  return hand.inputs.flatMap((input, n) =>
    (["gainDb", "pan"] as const).map(
      (key): Knob => ({
        path: `${path}.in ${n + 1}.${key}`,
        setting: { default: 0, ...mixerBounds[key] },
        value: input[key],
        turn: (before, value) => {
          const box = now(before);
          if (box.box !== "mixer") return before;
          const inputs = box.inputs.map((old, k) => (k === n ? { ...old, [key]: value } : old));
          return change(before, { ...box, inputs });
        },
      }),
    ),
  );
}
