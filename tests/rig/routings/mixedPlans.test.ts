import { describe, expect, test } from "vitest";
import { chainOf } from "../../../src/rig/model/chain.js";
import { placeChoices, type Rig } from "../../../src/rig/model/rig.js";
import { drawPlan } from "../../../src/rig/routings/drawPlan.js";
import { mixedPlans } from "../../../src/rig/routings/mixedPlans.js";
import { placeRules } from "../../../src/rig/routings/places/places.js";
import { branchesOf, type Seat } from "../../../src/rig/routings/plan.js";
import { parsePlanId, planIdOf, planOf, uniformPlan } from "../../../src/rig/routings/planId.js";
import { isNamed, isSensible } from "../../../src/rig/routings/sense.js";
import { checkWiring } from "../../../src/rig/wiring/check.js";
import { instrument, pedal, rigOf } from "../../rigs.js";
import { randomRig } from "./randomRigs.js";
import { sixRigs } from "./sixRigs.js";

/** Every way to seat every unit, sensible or not, that is a plan at all. */
function everySeating(rig: Rig): readonly (readonly Seat[])[] {
  const seatings = chainOf(rig).units.reduce<readonly (readonly Seat[])[]>(
    (before, { name, alternatives }) => {
      const usual = alternatives.find(({ jacks }) => jacks === "stereo")?.name;
      const own = placeChoices.flatMap((place) => {
        const others = alternatives.filter(
          (each) => (each.jacks === "stereo") === (place === "stereo") && each.name !== usual,
        );
        return [null, ...others.map((each) => each.name)].flatMap((takes) => {
          const seat = { unit: name, place, takes, joined: false };
          return placeRules[place].isBranch ? [seat, { ...seat, joined: true }] : [seat];
        });
      });
      return before.flatMap((seats) => own.map((seat) => [...seats, seat]));
    },
    [[]],
  );
  return seatings.filter((seats) => typeof planOf(rig, branchesOf(seats).flat()) !== "string");
}

const smallRigs: readonly Rig[] = [
  ...Object.values(sixRigs),
  ...Array.from({ length: 150 }, (_, n) => randomRig(1000 + n, 5)).filter(
    (rig) => chainOf(rig).units.length <= 3,
  ),
];

test("the list is every seating that makes sense and is none of the eight, once each", () => {
  for (const rig of smallRigs) {
    const { plans, total } = mixedPlans(rig, 10_000);
    const sensible = chainOf(rig).units.length === 0 ? [] : everySeating(rig);
    const expected = sensible
      .filter((seats) => isSensible(rig, seats) && !isNamed(seats))
      .map((seats) => planIdOf(rig, seats));
    expect(plans.map(({ id }) => id).sort()).toEqual(expected.sort());
    expect(total).toBe(expected.length);
    expect(new Set(expected).size).toBe(expected.length);
  }
});

test("the first of a list are the list of fewer", () => {
  for (const rig of smallRigs) {
    const all = mixedPlans(rig, 10_000).plans.map(({ id }) => id);
    for (const most of [0, 1, 5, 30])
      expect(mixedPlans(rig, most).plans.map(({ id }) => id)).toEqual(all.slice(0, most));
  }
});

test("an id is read as the plan that it was printed from", () => {
  for (const rig of smallRigs) {
    for (const plan of mixedPlans(rig, 200).plans) expect(parsePlanId(rig, plan.id)).toEqual(plan);
    if (chainOf(rig).units.length === 0) continue;
    for (const place of placeChoices) {
      const plan = uniformPlan(rig, place);
      expect(parsePlanId(rig, plan.id)).toEqual(plan);
    }
  }
});

test("every wiring of every plan of many rigs holds together", () => {
  for (let seed = 1; seed <= 300; seed++) {
    const plain = randomRig(seed);
    for (const outputs of [1, 2] as const) {
      const rig: Rig = { ...plain, instrument: instrument({ outputs }) };
      for (const plan of mixedPlans(rig, 40).plans) {
        expect(
          checkWiring(drawPlan(rig, plan).wiring),
          `seed ${seed}, ${outputs} outputs, ${plan.id}`,
        ).toEqual([]);
      }
    }
  }
});

describe("many units", () => {
  const units = (count: number) =>
    Array.from({ length: count }, (_, n) => pedal(`U${n}`, ["delay", "hall", "overdrive"][n % 3], "mono"));
  test("six are counted in full and listed as far as asked", () => {
    const rig = rigOf([pedal("Split", "chorus", "mono-to-stereo"), ...units(6)]);
    const { plans, total } = mixedPlans(rig, 100);
    expect(plans).toHaveLength(100);
    expect(total).toBe(mixedPlans(rig, 1e6).plans.length);
  });
  test("sixty-three are answered as well, the most usual first", () => {
    const rig = rigOf([pedal("Split", "chorus", "mono-to-stereo"), ...units(63)]);
    const { plans, total } = mixedPlans(rig, 50);
    expect(plans).toHaveLength(50);
    expect(total).toBeGreaterThan(1e30);
    expect(plans[0].seats.every(({ place }) => place === "beside" || place === "first")).toBe(true);
  });
});
