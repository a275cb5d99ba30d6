import { expect, test } from "vitest";
import type { Pedal } from "../../../src/rig/model/rig.js";
import { pedal, rigOf } from "../../rigs.js";
import { noise } from "../../signals.js";
import { expectWithin } from "../../within.js";
import { kindsOf, lookAt, pressOf } from "./presses.js";

const rateHz = 16_000;
const take = noise({ seed: 31, frames: rateHz });
const still = pedal("Split", "tremolo", "mono-to-stereo", { depth: 0 }, { hasFootswitch: false });
const boost = (rest: Partial<Pedal> = {}, gainDb = 0) => pedal("Unit", "boost", "mono", { gainDb }, rest);
const look = (unit: Pedal, id: string) => lookAt(rigOf([still, unit]), id, take, rateHz);

test("in line: off is louder by what the pedal takes, and its output is to be turned up by as much", () => {
  const { levelJumpLu, flags } = pressOf(look(boost({ levelDb: -2 }, -3), "series-mono"), "Unit");
  expectWithin(levelJumpLu, 5, 1e-4, "LU");
  expect(flags).toHaveLength(1);
  expect(flags[0]).toMatchObject({
    kind: "level-jump",
    unit: "LU",
    says: "5.0 LU louder",
    cure: { kind: "trim", says: expect.stringContaining("turn its output up by 5.0 dB (levelDb: 3.0)") },
  });
});

test("below the threshold nothing is flagged", () => {
  expect(pressOf(look(boost({}, 0.45), "series-mono"), "Unit").flags).toEqual([]);
  expect(kindsOf(pressOf(look(boost({}, 0.55), "series-mono"), "Unit"))).toBe("level-jump");
});

test("on one side, latency that goes with a true bypass shifts the sides in time", () => {
  const latency = { latencyMs: 2, whenOff: "true-bypass" } as const;
  const step = pressOf(look(boost(latency), "one-side"), "Unit");
  const shift = step.flags.find(({ kind }) => kind === "side-delay")!;
  expectWithin(shift.value, -2, 1e-9, "ms");
  expect(shift.says).toBe("the right comes 2.00 ms later than before, to the other side");
  expect(shift.cure?.kind).toBe("keep-latency");
  const buffered = pressOf(look(boost({ ...latency, whenOff: "buffered" }), "one-side"), "Unit");
  expect(kindsOf(buffered)).not.toContain("side-delay");
});

test("a leak's comb that becomes the whole dry sound's is a change of comb", () => {
  const leak = { canGoFullyWet: false, dryLeakDb: -6, latencyMs: 1, whenOff: "buffered" } as const;
  const unit = pedal("Unit", "delay", "mono", { delayMs: 300, mix: 0.5 }, leak);
  const comb = pressOf(look(unit, "parallel"), "Unit").flags.find(({ kind }) => kind === "comb")!;
  expect(comb.says).toMatch(
    /^a comb changes from a copy 1\.00 ms late at -6\.0 dB.*, to a copy 1\.00 ms late at 0\.0 dB/,
  );
  expect(comb.cure?.kind).toBe("mute");
  // By true bypass the late copy goes, and with it the comb: the cure is to kill the leak.
  const bypassed = { ...unit, whenOff: "true-bypass" } as const;
  const gone = pressOf(look(bypassed, "parallel"), "Unit").flags.find(({ kind }) => kind === "comb")!;
  expect(gone).toMatchObject({ says: expect.stringMatching(/^a comb goes/), cure: { kind: "kill-dry" } });
});

test("a pedal that mutes when off, in line, silences the rig: it is to pass its input there", () => {
  const step = pressOf(look(boost({ whenOff: "muted" }), "series-mono"), "Unit");
  expect(step.levelJumpLu).toBeNull();
  expect(step.flags).toMatchObject([{ kind: "silence", cure: { kind: "pass" } }]);
});

test("polarity of one side alone is told apart from that of both", () => {
  const says = (id: string) =>
    pressOf(look(boost({ invertsPolarity: true }), id), "Unit").flags.find(({ kind }) => kind === "polarity")
      ?.says;
  expect(says("one-side")).toMatch(/on the left alone/);
  expect(says("series-mono")).toMatch(/on both sides/);
});

/** Common practice, no source: a boost is there to be louder; a branch is not brought to level by the unit's own output. */
test("no cure turns a boost down, and none leaves a larger jump than it mends", () => {
  const louder = pressOf(look(boost({}, 6), "series-mono"), "Unit").flags[0];
  expect(louder).toMatchObject({ kind: "level-jump", cure: null });
  // A wet sound as strong as the dry one that takes its place: off jumps by less than a mute would.
  const unit = pedal("Unit", "delay", "mono", { delayMs: 90, feedback: 0, mix: 1 });
  const found = lookAt(
    rigOf([still, unit], { mixer: { dryDb: 0, returnDb: 6, returnPan: 0 } }),
    "parallel",
    take,
    rateHz,
  );
  const { levelJumpLu, flags } = pressOf(found, "Unit");
  const level = flags.find(({ kind }) => kind === "level-jump")!;
  expectWithin(levelJumpLu, 3, 0.1, "LU");
  expect(level.cure).toBeNull();
});
