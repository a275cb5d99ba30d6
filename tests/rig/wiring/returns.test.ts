import { expect, test } from "vitest";
import { routingsOf } from "../../../src/rig/routings/routingsOf.js";
import { returnsOf } from "../../../src/rig/wiring/returns.js";
import type { Wiring } from "../../../src/rig/wiring/wiring.js";
import { pedal, rigOf, simpleRig } from "../../rigs.js";

const returns = (wiring: Wiring): readonly (readonly string[])[] =>
  wiring.boxes.flatMap((box) => (box.kind === "mixer" ? [returnsOf(box, wiring)] : []));
const wiringOf = (rig: ReturnType<typeof rigOf>, id: string) =>
  routingsOf(rig).find((routing) => routing.id === id)!.wiring!;

test("the units' own branches are returns, whatever their pan", () => {
  const rig = simpleRig({ mixer: { dryDb: 0, returnDb: 0, returnPan: 1 } });
  expect(returns(wiringOf(rig, "parallel"))).toEqual([["in 2 (mono)"]]);
});

/** The second mixer's pair comes from the first, with what returned to that. */
test("a mixer behind another has its own returns alone", () => {
  const unit = (name: string) => pedal(name, "delay", "mono", { mix: 0.4 });
  const rig = rigOf([
    pedal("Swing", "tremolo", "mono-to-stereo"),
    unit("Echo"),
    pedal("Wide", "chorus", "stereo"),
    unit("Late echo"),
  ]);
  expect(returns(wiringOf(rig, "parallel-after"))).toEqual([["in 2 (mono)"], ["in 2 (mono)"]]);
});

/** Left and right may be brought in from the edges; a return may stand at one. */
test("in a wiring drawn by hand a fully wet pedal makes the return, not the pan", () => {
  const rig = simpleRig({
    wirings: {
      own: {
        label: "own",
        boxes: {
          split: { box: "splitter", outputs: 2, buffered: true },
          swing: { box: "pedal", pedal: "Swing", fullyWet: false, settings: {} },
          echo: { box: "pedal", pedal: "Echo", fullyWet: true, settings: {} },
          desk: {
            box: "mixer",
            inputs: [-0.8, 0.8, 1].map((pan) => ({ gainDb: 0, pan })),
            outputs: 2,
          },
        },
        cables: [
          ["take:out", "split:in"],
          ["split:out 1", "swing:in"],
          ["swing:out left", "desk:in 1"],
          ["swing:out right", "desk:in 2"],
          ["split:out 2", "echo:in"],
          ["echo:out", "desk:in 3"],
          ["desk:out left", "destination:in left"],
          ["desk:out right", "destination:in right"],
        ].map(([from, to]) => ({ from, to })),
      },
    },
  });
  expect(returns(wiringOf(rig, "own"))).toEqual([["in 3"]]);
});
