import { expect, test } from "vitest";
import { withAsks } from "../../../src/rig/file/askWords.js";
import { UserError } from "../../../src/text/userError.js";
import { noAsks, pedal, rigOf } from "../../rigs.js";

const rig = rigOf(
  [
    pedal("Wash", "chorus", "mono-to-stereo"),
    pedal("Tank", "spring", "mono"),
    pedal("Grit, the second", "overdrive", "mono"),
  ],
  { asks: { ...noAsks, spendAtMost: 90, order: ["Tank"], first: ["boxes", "width", "cost", "monoLoss"] } },
);

test("words take the place of the rig's own asks of those names and leave the others", () => {
  const { asks } = withAsks(rig, ["stereo", "spendAtMost=200", "oneOfEach", "first=cost"]);
  expect(asks).toEqual({
    ...noAsks,
    stereo: 0.4,
    order: ["Tank"],
    oneOfEach: true,
    spendAtMost: 200,
    first: ["cost", "width", "boxes", "monoLoss"],
  });
  expect(withAsks(rig, [])).toEqual(rig);
});

test("lists grow with every word; a comma parts names but for a name that has one", () => {
  const order = (...words: string[]) => withAsks(rig, words).asks.order;
  expect(order("order=Grit, the second")).toEqual(["Grit, the second"]);
  expect(order("order=Grit, the second", "order=Tank")).toEqual(["Grit, the second", "Tank"]);
  expect(order("order")).toEqual(["Tank", "Grit, the second"]);
  expect(withAsks(rig, ["first=monoLoss, boxes"]).asks.first).toEqual(["monoLoss", "boxes", "width", "cost"]);
});

const faults = (...words: string[]): readonly string[] => {
  try {
    withAsks(rig, words);
  } catch (error) {
    if (error instanceof UserError) return error.faults.map(({ message }) => message);
  }
  return [];
};

test("what is no ask, no unit or no figure is told with what is allowed, all at once", () => {
  expect(faults("spend=3", "stereo=2", "order=Wash")).toEqual([
    expect.stringContaining("stereo is 2"),
    expect.stringMatching(/"spend" is not known here.*Did you mean spendAtMost\?/),
    expect.stringContaining('"Wash"'),
  ]);
  expect(faults("spendAtMost")).toEqual([expect.stringContaining("spendAtMost is true")]);
  expect(faults("first=price")).toEqual([expect.stringContaining("one of width, cost, boxes, monoLoss")]);
  expect(faults("extraBoxesAtMost=1.5")).toHaveLength(1);
  expect(faults("=3")).toHaveLength(1);
});
