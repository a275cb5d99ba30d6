import { describe, expect, test } from "vitest";
import { footswitchesOf } from "../../../src/rig/wiring/footswitches.js";
import { pedalBoxes } from "../../../src/rig/wiring/parts.js";
import { UserError } from "../../../src/text/userError.js";
import { answersTo, checkSwitchWord, chooseStates } from "../../../src/work/switches/chooseStates.js";
import { allStates, inState, withAllOff } from "../../../src/work/switches/states.js";
import { pedal, rigOf, simpleRig } from "../../rigs.js";
import { wiringOf } from "./presses.js";

const rigOfMany = (count: number) =>
  rigOf(Array.from({ length: count }, (_, n) => pedal(`P${n + 1}`, "boost", "mono")));
const ids = (count: number, choice: Parameters<typeof chooseStates>[1]) =>
  chooseStates(wiringOf(rigOfMany(count), "as-given"), choice).map(({ id }) => id);

describe("states", () => {
  test("every state once, everything on first, a digit a switch in the order of the signal", () => {
    const states = allStates(footswitchesOf(wiringOf(simpleRig(), "unit-first")));
    expect(states.map(({ id }) => id)).toEqual(["11", "01", "10", "00"]);
    expect(states[1]).toEqual({ id: "01", on: ["Swing"], off: ["Echo"] });
  });
  test("a pedal without a footswitch stays on; two units one a side are two switches", () => {
    const rig = simpleRig({}, { hasFootswitch: false });
    expect(footswitchesOf(wiringOf(rig, "dual-mono")).map(({ label }) => label)).toEqual(["Swing"]);
    expect(pedalBoxes(withAllOff(wiringOf(rig, "dual-mono"))).map(({ on }) => on)).toEqual([
      false,
      true,
      true,
    ]);
    expect(footswitchesOf(wiringOf(simpleRig(), "dual-mono"))).toHaveLength(3);
  });
  test("a state sets the footswitches of its wiring and nothing else", () => {
    const wiring = wiringOf(simpleRig(), "dual-mono");
    const now = inState(wiring, "101");
    expect(pedalBoxes(now).map(({ label, on }) => `${label} ${on}`)).toEqual([
      "Swing true",
      "Echo (left) false",
      "Echo (right) true",
    ]);
    expect(inState(now, "111")).toEqual(wiring);
  });
});

describe("which states are looked at", () => {
  test("all up to six switches; beyond, one press from all on and from all off", () => {
    expect(ids(6, "usual")).toHaveLength(64);
    expect(ids(7, "usual")).toHaveLength(2 + 7 + 7);
    expect(ids(7, "usual").slice(0, 3)).toEqual(["1111111", "0111111", "1011111"]);
    expect(ids(7, "all")).toHaveLength(128);
  });
  test("a chosen list, each state with what one press makes of it", () => {
    expect(ids(3, [["P1", "P2"]])).toEqual(["001", "101", "011", "000"]);
    expect(ids(3, [[]])).toEqual(["111", "011", "101", "110"]);
  });
  test("all states of too many switches are refused with what to do", () => {
    expect(() => ids(11, "all")).toThrow(/11 footswitches in a routing, so 2048 states.*--states each/);
  });
});

describe("words for switches", () => {
  const wirings = [wiringOf(simpleRig(), "dual-mono"), wiringOf(simpleRig(), "stereo-unit")];
  test("a pedal's name means both its units, and the stereo unit in its place; a model means its pedals", () => {
    const meant = (word: string) =>
      wirings.flatMap((wiring) =>
        footswitchesOf(wiring)
          .filter((box) => answersTo(box, word))
          .map(({ label }) => label),
      );
    expect(meant("echo")).toEqual(["Echo (left)", "Echo (right)", "Stereo Echo"]);
    expect(meant("Echo (left)")).toEqual(["Echo (left)"]);
    expect(meant("tremolo")).toEqual(["Swing", "Swing"]);
  });
  test("a wrong word gets the nearest right one; a pedal without a footswitch is told to be on", () => {
    expect(() => checkSwitchWord("Ecko", wirings)).toThrow(
      new UserError(
        '"Ecko" is no footswitch of this rig; did you mean "Echo"? There are Swing, Echo, Stereo Echo.',
      ),
    );
    const always = wiringOf(simpleRig({}, { hasFootswitch: false }), "summed");
    expect(() => checkSwitchWord("Echo", [always])).toThrow(/"Echo" has no footswitch/);
    expect(checkSwitchWord("delay", wirings)).toBeUndefined();
  });
});
