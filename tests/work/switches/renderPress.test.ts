import { beforeAll, describe, expect, test } from "vitest";
import type { Pedal, Rig } from "../../../src/rig/model/rig.js";
import { initialiseFft } from "../../../src/sound/dsp/fft.js";
import { renderPress } from "../../../src/work/switches/renderPress.js";
import { inState } from "../../../src/work/switches/states.js";
import { instrument, pedal, rigOf } from "../../rigs.js";
import { noise, sine } from "../../signals.js";
import { renderWirings } from "../render/renders.js";
import { wiringOf } from "./presses.js";

beforeAll(() => initialiseFft());

const rateHz = 16_000;
const take = noise({ seed: 3, frames: 2 * rateHz });
const middle = rateHz;
/** Half the 5 ms fade. */
const half = Math.round(0.0025 * rateHz);
/** 100 ms echoes, alone. */
const echoRig = (rest: Partial<Pedal>, settings = {}): Rig =>
  rigOf([pedal("Echo", "delay", "mono", { delayMs: 100, feedback: 0.5, mix: 0.5, ...settings }, rest)]);

function press(rig: Rig, to: "on" | "off", sound = take): Float32Array {
  const wiring = wiringOf(rig, "as-given");
  return renderPress({ wiring, switches: new Set(["Echo"]), to, take: sound, rateHz, clips: new Map() })[0];
}
const stateAs = (rig: Rig, id: "0" | "1", sound = take): Float32Array =>
  renderWirings([inState(wiringOf(rig, "as-given"), id)], sound, rateHz)[0][0];

describe("before and behind the press", () => {
  test.each(["true-bypass", "buffered"] as const)(
    "%s, off: the one state, then the other, to the bit",
    (whenOff) => {
      const rig = echoRig({ whenOff, latencyMs: 1 });
      const out = press(rig, "off");
      expect(out).toHaveLength(take.length);
      expect(out.slice(0, middle - half)).toEqual(stateAs(rig, "1").slice(0, middle - half));
      expect(out.slice(middle + half)).toEqual(stateAs(rig, "0").slice(middle + half));
    },
  );
  test.each(["off", "on"] as const)(
    "with an instrument's circuit, %s: loaded by the unit or past it",
    (to) => {
      const rig = {
        ...echoRig({ whenOff: "true-bypass", inputOhms: 22_000, outputOhms: 10_000 }, { mix: 0 }),
        instrument: instrument({ outputOhms: 9000, henries: 3 }),
        destination: { inputOhms: 47_000, maxInputDbu: null },
      };
      const out = press(rig, to);
      const [before, after] = to === "off" ? (["1", "0"] as const) : (["0", "1"] as const);
      expect(out.slice(0, middle - half)).toEqual(stateAs(rig, before).slice(0, middle - half));
      expect(out.slice(middle + half)).toEqual(stateAs(rig, after).slice(middle + half));
      expect(stateAs(rig, "1")).not.toEqual(stateAs(rig, "0"));
    },
  );
  test("buffered, on: the unit has listened all along", () => {
    const rig = echoRig({ whenOff: "buffered" });
    expect(press(rig, "on").slice(middle + half)).toEqual(stateAs(rig, "1").slice(middle + half));
  });
  test("true bypass, on: it starts empty, so that no echo of what was before comes", () => {
    const rig = echoRig({ whenOff: "true-bypass" }, { mix: 1 });
    const out = press(rig, "on");
    const first = middle - half + Math.round(0.1 * rateHz);
    expect(out.slice(middle + half, first).every((x) => x === 0)).toBe(true);
    expect(out.slice(first + 2 * half).some((x) => Math.abs(x) > 0.01)).toBe(true);
  });
  test("muting, off: the trail rings on and dies, and nothing new comes", () => {
    const rig = echoRig({ whenOff: "muted" }, { mix: 1 });
    const out = press(rig, "off");
    const echo = Math.round(0.1 * rateHz);
    expect(out.slice(0, middle - half)).toEqual(stateAs(rig, "1").slice(0, middle - half));
    // One delay long the unit plays what it still holds; each round then is 0.5 of the one before.
    expect(out.slice(middle + half, middle - half + echo)).toEqual(
      stateAs(rig, "1").slice(middle + half, middle - half + echo),
    );
    const energy = (from: number) => out.slice(from, from + echo).reduce((sum, x) => sum + x * x, 0);
    const [first, second, third] = [1, 2, 3].map((n) => energy(middle + half + n * echo));
    expect(first).toBeGreaterThan(0);
    expect(second / first).toBeCloseTo(0.25, 1);
    expect(third / second).toBeCloseTo(0.25, 1);
  });
});

/** Closed form: of a sine of amplitude A the fade from gain 1 to g changes by at most A (w + |g - 1| pi / (2 T)) a frame. */
test("there is no click", () => {
  const rig = rigOf([pedal("Echo", "boost", "mono", { gainDb: 12 })]);
  const tone = sine({ frequencyHz: 200, rateHz, lengthSeconds: 2, peakDbfs: -20 });
  const out = press(rig, "off", tone);
  const [w, jump] = [(2 * Math.PI * 200) / rateHz, 10 ** (12 / 20) - 1];
  const most = 0.1 * ((1 + jump) * w + (jump * Math.PI) / (2 * 2 * half));
  let steepest = 0;
  for (let n = middle - 3 * half; n < middle + 3 * half; n++)
    steepest = Math.max(steepest, Math.abs(out[n] - out[n - 1]));
  expect(steepest).toBeLessThan(most);
});

/** An oversampled drive comes some frames late by its own working; the press behind it stays where it is in the take. */
test("the lag of what stands ahead does not move the press", () => {
  const drive = pedal("Drive", "overdrive", "mono", {}, { hasFootswitch: false });
  const rig = rigOf([drive, pedal("Echo", "boost", "mono", { gainDb: 6 })]);
  const out = press(rig, "off");
  expect(out.slice(0, middle - half)).toEqual(stateAs(rig, "1").slice(0, middle - half));
  expect(out.slice(middle + half)).toEqual(stateAs(rig, "0").slice(middle + half));
  const on = stateAs(rig, "1");
  const first = out.findIndex((x, n) => x !== on[n]);
  expect(first - (middle - half)).toBeLessThanOrEqual(2);
});

test("of a take over a minute, the 30 s either side", () => {
  const slow = 1000;
  const long = noise({ seed: 4, frames: 80 * slow });
  const rig = rigOf([pedal("Echo", "boost", "mono", { gainDb: 6 })]);
  const [left] = renderPress({
    wiring: wiringOf(rig, "as-given"),
    switches: new Set(["Echo"]),
    to: "off",
    take: long,
    rateHz: slow,
    clips: new Map(),
  });
  expect(left).toHaveLength(60 * slow);
  expect(left.slice(30 * slow + 5)).toEqual(long.slice(40 * slow + 5, 70 * slow));
});
