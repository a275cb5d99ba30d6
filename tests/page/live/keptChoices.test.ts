import { expect, test } from "vitest";
import { withKept } from "../../../src/page/live/keptChoices.js";
import { pedal, rigOf } from "../../rigs.js";

const rigAt = (mix: number) => rigOf([pedal("Tank", "spring", "mono", { mix })]);
const all = (mix: number) => ({ label: "Yard: All in mono", routing: "series-mono", rig: rigAt(mix) });

test("what is kept already is not kept again; what was turned since has a label of its own", () => {
  const once = withKept([], all(0.3), ["kept-1"]);
  expect(once.map(({ id, label }) => [id, label])).toEqual([["kept-2", "Yard: All in mono"]]);
  expect(withKept(once, all(0.3), [])).toEqual(once);
  const turned = withKept(once, all(0.5), []);
  expect(turned.map(({ id, label }) => [id, label])).toEqual([
    ["kept-2", "Yard: All in mono"],
    ["kept-1", "Yard: All in mono (2)"],
  ]);
});
