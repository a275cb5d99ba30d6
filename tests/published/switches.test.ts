import { describe, expect, test } from "vitest";
import type { Pedal, Rig } from "../../src/rig/model/rig.js";
import { AnalysisFft } from "../../src/sound/dsp/analysisFft.js";
import { dbToGain } from "../../src/sound/dsp/units.js";
import { inState } from "../../src/work/switches/states.js";
import { levelJndDb, thresholds } from "../../src/work/switches/thresholds.js";
import { pedal, rigOf } from "../rigs.js";
import { impulse, noise } from "../signals.js";
import { expectWithin } from "../within.js";
import { renderWirings } from "../work/render/renders.js";
import { kindsOf, lookAt, pressOf, wiringOf } from "../work/switches/presses.js";

const rateHz = 48_000;
const take = noise({ seed: 21, frames: 3 * rateHz });
/** A return as loud as what it returns: the pan law takes 3.01 dB at the centre. */
const unityReturn = { mixer: { dryDb: 0, returnDb: 10 * Math.log10(2), returnPan: 0 } };
const still = pedal("Split", "tremolo", "mono-to-stereo", { depth: 0 }, { hasFootswitch: false });
/** A delay longer than the take: fully wet it is silent while it is on. */
const besides = (rest: Partial<Pedal>, settings = {}): Rig =>
  rigOf(
    [still, pedal("Unit", "delay", "mono", { delayMs: 2000, feedback: 0, ...settings }, rest)],
    unityReturn,
  );
const longTake = take.subarray(0, Math.floor(1.9 * rateHz));

/** Common practice, no source: a fully wet unit that is switched off sends dry signal round its branch. */
describe("a wet branch that is switched off", () => {
  /** Closed form: two coherent equal signals, 20 log10 2 = +6.02 dB. */
  test("by true bypass doubles the dry sound: +6.02 LU", () => {
    const step = pressOf(lookAt(besides({ whenOff: "true-bypass" }), "parallel", longTake, rateHz), "Unit");
    expectWithin(step.levelJumpLu, 20 * Math.log10(2), 1e-3, "LU");
    expect(kindsOf(step)).toBe("level-jump");
  });
  /** Closed form: two unrelated equal signals, 10 log10 2 = +3.01 dB. White noise 90 ms later is unrelated to itself. */
  test("late enough, it adds as something unrelated: +3.01 LU", () => {
    const step = pressOf(
      lookAt(besides({ whenOff: "buffered", latencyMs: 90 }), "parallel", longTake, rateHz),
      "Unit",
    );
    expectWithin(step.levelJumpLu, 10 * Math.log10(2), 0.1, "LU");
  });
  test("by a mute changes nothing, and the mute on the return is the cure that is named, with what it leaves", () => {
    const muted = pressOf(lookAt(besides({ whenOff: "muted" }), "parallel", longTake, rateHz), "Unit");
    expectWithin(muted.levelJumpLu, 0, 1e-9, "LU");
    expect(muted.flags).toEqual([]);
    const { flags } = pressOf(lookAt(besides({}), "parallel", longTake, rateHz), "Unit");
    expect(flags[0].cure).toMatchObject({
      kind: "mute",
      says: expect.stringMatching(/^mute its return \(Mixer, in 2/),
    });
    expectWithin(flags[0].cure!.levelJumpLu, 0, 1e-9, "LU");
  });
  test("turned over when on, the dry sound would cancel: both sides change polarity in line", () => {
    const rig = rigOf([still, pedal("Unit", "boost", "mono", { gainDb: 0 }, { invertsPolarity: true })]);
    const step = pressOf(lookAt(rig, "dual-mono", longTake, rateHz), "Unit (left)");
    expect(kindsOf(step)).toContain("polarity");
    // Alike but for the sign: all middle before, all side after.
    expectWithin(step.sideShareChange, 1, 1e-12);
    expectWithin(step.correlationChange, -2, 1e-12);
  });
});

/**
 * Closed form: y = x + g x(t - tau), minima of 20 log10(1 - g) at (2k + 1) / (2 tau). What the flag tells is looked for
 * in the sound of the state itself.
 */
test("a buffered bypass with latency combs where the flag says", () => {
  const rig = besides({ whenOff: "buffered", latencyMs: 1.25 }, {});
  const looked = lookAt(rig, "parallel", longTake, rateHz);
  const step = pressOf(looked, "Unit");
  const comb = looked.states.find(({ id }) => id === step.to)!.comb!;
  expect(comb).toMatchObject({ delayMs: 1.25, inverted: false, side: "both" });
  expect(comb.notchesHz).toEqual([400, 1200, 2000, 2800, 3600]);
  expect(step.flags.find(({ kind }) => kind === "comb")?.says).toMatch(
    /1\.25 ms late at 0\.0 dB, first notch 400 Hz/,
  );
  const frames = 4800;
  const [left] = renderWirings([inState(wiringOf(rig, "parallel"), step.to)], impulse(frames), rateHz)[0];
  const fft = new AnalysisFft(8192);
  const [re, im] = [new Float64Array(8192), new Float64Array(8192)];
  re.set(left);
  fft.forward(re, im);
  const gainAt = (hz: number) =>
    Math.hypot(re[Math.round((hz * 8192) / rateHz)], im[Math.round((hz * 8192) / rateHz)]);
  for (const hz of comb.notchesHz) expect(gainAt(hz)).toBeLessThan(0.02);
  for (const hz of [800, 1600, 2400]) expectWithin(gainAt(hz), 2, 0.02);
});

/** Common practice, no source: a unit on one side has its own footswitch; one press alone makes the pair lopsided. */
test("of two units one a side, one press shifts the balance by the unit's own change of level", () => {
  const unit = pedal("Unit", "boost", "mono", { gainDb: 6 });
  const looked = lookAt(rigOf([still, unit]), "dual-mono", longTake, rateHz);
  expect(looked.switches).toEqual(["Unit (left)", "Unit (right)"]);
  const step = pressOf(looked, "Unit (left)");
  const shift = step.flags.find(({ kind }) => kind === "balance")!;
  expectWithin(shift.value, -6, 1e-4, "dB");
  expect(shift.cure).toMatchObject({ kind: "both" });
  // Closed form: from 2 g^2 to 1 + g^2, g = 6 dB; both pressed: -6 dB.
  const g2 = dbToGain(12);
  expectWithin(step.levelJumpLu, 10 * Math.log10((1 + g2) / (2 * g2)), 1e-4, "LU");
  expectWithin(shift.cure!.levelJumpLu, -6, 1e-4, "LU");
});

/** Common practice, no source: a stereo pedal that is off by bypass makes both sides alike. */
test("the width that a pedal makes goes with it, and that is no fault", () => {
  const rig = rigOf([pedal("Swirl", "chorus", "mono-to-stereo", { secondOutput: "inverted-wet", mix: 0.5 })]);
  const looked = lookAt(rig, "as-given", longTake, rateHz);
  const step = pressOf(looked, "Swirl");
  expectWithin(looked.states.find(({ id }) => id === "0")!.correlation, 1, 1e-12);
  expect(step.flags.find(({ kind }) => kind === "width")).toMatchObject({ cure: null });
});

/**
 * Jesteadt, Wier and Green 1977: dI/I = 0.463 (I/I0)^-0.072. At 60 dB 0.69 dB, at 80 dB 0.50 dB. The other two:
 * ISO 3382-1:2009, Table A.1 and Annex B.
 */
test("thresholds are those of their sources", () => {
  expectWithin(levelJndDb(60), 0.69, 0.005, "dB");
  expectWithin(levelJndDb(80), 0.5, 0.005, "dB");
  expect(thresholds["level-jump"].value).toBe(levelJndDb(80));
  expect(thresholds.width.value).toBe(0.05);
  expect(thresholds.correlation.value).toBe(0.075);
});
