import type { Rig } from "../../../src/rig/model/rig.js";
import { routingsOf } from "../../../src/rig/routings/routingsOf.js";
import { footswitchesOf } from "../../../src/rig/wiring/footswitches.js";
import type { Wiring } from "../../../src/rig/wiring/wiring.js";
import { measureStates } from "../../../src/work/switches/measureStates.js";
import { allStates } from "../../../src/work/switches/states.js";
import { pressesOf, readingOf, renditionsOf } from "../../../src/work/switches/steps.js";
import type { RoutingSwitches, SwitchStep } from "../../../src/work/switches/switchTypes.js";

export const wiringOf = (rig: Rig, id: string): Wiring =>
  routingsOf(rig).find((each) => each.id === id)!.wiring!;

/** All states and presses of one routing, in this thread. */
export function lookAt(rig: Rig, id: string, take: Float32Array, rateHz: number): RoutingSwitches {
  const wiring = wiringOf(rig, id);
  const states = allStates(footswitchesOf(wiring));
  const renditions = renditionsOf(wiring, states);
  const levels = measureStates({
    wirings: renditions.map((each) => each.wiring),
    take,
    rateHz,
    clips: new Map(),
  });
  const find = (state: string, muted: number | null) =>
    levels[renditions.findIndex((each) => each.state === state && each.muted === muted)];
  const readings = states.map((state) => readingOf(state, wiring, find(state.id, null)));
  return {
    id,
    label: id,
    switches: footswitchesOf(wiring).map(({ label }) => label),
    states: readings,
    steps: pressesOf(wiring, readings, (state, place) => find(state, place)?.integratedLufs ?? null),
  };
}

/** The press of one pedal with every other switch on. */
export const pressOf = ({ steps }: RoutingSwitches, pedal: string): SwitchStep =>
  steps.find((step) => step.pedal === pedal && step.from.indexOf("0") < 0)!;

/** "level-jump, comb". */
export const kindsOf = ({ flags }: SwitchStep): string => flags.map(({ kind }) => kind).join(", ");
