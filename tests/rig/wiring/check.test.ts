import { describe, expect, test } from "vitest";
import type { HandWiring } from "../../../src/rig/model/rig.js";
import { handFaults } from "../../../src/rig/routings/handDrawn.js";
import { routingsOf } from "../../../src/rig/routings/routingsOf.js";
import { simpleRig } from "../../rigs.js";

const swing = { box: "pedal", pedal: "Swing", fullyWet: false, settings: {} } as const;
const echo = { box: "pedal", pedal: "Echo", fullyWet: true, settings: { mix: 0.2 } } as const;
const splitter = { box: "splitter", outputs: 2, buffered: true } as const;

/** Cables as "from > to". */
const hand = (boxes: HandWiring["boxes"], ...cables: string[]): HandWiring => ({
  label: "By hand",
  boxes,
  cables: cables.map((cable) => {
    const [from, to] = cable.split(" > ");
    return { from, to };
  }),
});
const faultsOf = (wiring: HandWiring): string =>
  handFaults(simpleRig({ wirings: { mine: wiring } }))
    .map(({ message }) => message)
    .join("\n");

describe("hand-drawn wirings", () => {
  test("a good one becomes a routing with its own settings", () => {
    const wiring = hand(
      {
        split: splitter,
        swing,
        echo,
        mix: {
          box: "mixer",
          inputs: [
            { gainDb: 0, pan: -1 },
            { gainDb: 0, pan: 1 },
            { gainDb: -3, pan: 0 },
          ],
          outputs: 2,
        },
      },
      "take:out > split:in",
      "split:out 1 > swing:in",
      "split:out 2 > echo:in",
      "swing:out left > mix:in 1",
      "swing:out right > mix:in 2",
      "echo:out > mix:in 3",
      "mix:out left > destination:in left",
      "mix:out right > destination:in right",
    );
    expect(faultsOf(wiring)).toBe("");
    const routing = routingsOf(simpleRig({ wirings: { mine: wiring } })).at(-1);
    expect(routing).toMatchObject({ id: "mine", label: "By hand" });
    const box = routing?.wiring?.boxes.find(({ id }) => id === "echo");
    expect(box?.kind === "pedal" && [box.fullyWet, box.isUnit, box.pedal.settings.mix]).toEqual([
      true,
      true,
      0.2,
    ]);
  });

  test.each([
    [
      "an unknown jack",
      hand({ swing }, "take:out > swing:in 7", "swing:out > destination:in"),
      /no input jack "in 7"; its input jacks are in/,
    ],
    ["an unknown box", hand({ swing }, "take:out > sving:in"), /there is no box "sving"/],
    ["an end without a jack", hand({ swing }, "take > swing:in"), /"take" names no jack; write box:jack/],
    [
      "two outputs into one input",
      hand(
        { split: splitter },
        "take:out > split:in",
        "split:out 1 > destination:in",
        "split:out 2 > destination:in",
      ),
      /already takes "split:out 1"; two outputs are never tied together/,
    ],
    [
      "two cables from one jack",
      hand({ swing, echo }, "take:out > swing:in", "take:out > echo:in"),
      /"take:out" already feeds "swing:in"; one jack holds one plug/,
    ],
    [
      "a loop",
      hand(
        { split: splitter, swing, sum: { box: "summing-box", inputs: 2 } },
        "take:out > sum:in 1",
        "sum:out > swing:in",
        "swing:out > split:in",
        "split:out 1 > sum:in 2",
        "split:out 2 > destination:in",
      ),
      /sum > swing > split > sum is a loop/,
    ],
    [
      "nothing reaching the destination",
      hand({ swing }, "take:out > swing:in"),
      /no sound reaches "destination"/,
    ],
    [
      "a box that nothing feeds",
      hand({ swing }, "take:out > destination:in"),
      /no sound reaches "swing"; cable it in or take it out/,
    ],
  ])("%s is named", (_what, wiring, message) => {
    expect(faultsOf(wiring)).toMatch(message);
    expect(() => routingsOf(simpleRig({ wirings: { mine: wiring } }))).toThrow(/wirings\.mine/);
  });
});
