import { describe, expect, test } from "vitest";
import { routingsOf } from "../../src/rig/routings/routingsOf.js";
import { combOf } from "../../src/rig/wiring/dryPaths.js";
import { AnalysisFft } from "../../src/sound/dsp/analysisFft.js";
import { correlation } from "../../src/sound/measure/correlation.js";
import { sideShare } from "../../src/sound/measure/sideShare.js";
import { pedal, rigOf } from "../rigs.js";
import { impulse, noise } from "../signals.js";
import { expectWithin } from "../within.js";
import { renderRig } from "../work/render/renders.js";

const rateHz = 48_000;
const take = noise({ seed: 11, frames: 2 * rateHz });
const rig = rigOf([
  pedal("Undertow", "vibrato", "mono-to-stereo", { lfoHz: 0.9, depthMs: 1.8, mix: 0.5, spreadDegrees: 90 }),
  pedal("Ledger", "delay", "stereo", { delayMs: 430, pingPong: true, mix: 0.3 }),
  pedal("Unit", "delay", "mono", { delayMs: 110, mix: 0.35 }),
]);

/** Common practice, no source: what the trade says each way of wiring does to width. */
describe("what each routing does to width", () => {
  const renders = renderRig(rig, take, rateHz);
  const width = (id: string): number => sideShare(...renders[id]) ?? 0;

  test.each(["series-mono", "summed"])("%s is mono: correlation 1, side share 0", (id) => {
    expectWithin(correlation(...renders[id]), 1, 1e-12);
    expect(width(id)).toBe(0);
  });
  test.each(["unit-first", "dual-mono", "parallel", "parallel-after"])("%s keeps width", (id) => {
    // Beside the stereo pedals a mono return adds to the middle: some width goes, most stays.
    expect(width(id)).toBeGreaterThan(0.4 * width("stereo-unit"));
  });
  test("one side with the unit is lopsided where the other routings are not", () => {
    const balance = (id: string) => {
      const [left, right] = renders[id].map((x) => x.reduce((sum, v) => sum + v * v, 0));
      return Math.abs(10 * Math.log10(left / right));
    };
    expect(balance("one-side")).toBeGreaterThan(balance("dual-mono") + 1);
  });
});

/** Common practice, no source: a second output made by inverting the wet sound loses the effect in mono. */
test("inverted-wet stereo folds down to the dry signal alone", () => {
  const inverted = rigOf([
    pedal("V", "vibrato", "mono-to-stereo", { mix: 0.5, secondOutput: "inverted-wet" }),
  ]);
  const [left, right] = renderRig(inverted, take, rateHz)["as-given"];
  let worst = 0;
  for (let n = 0; n < take.length; n++)
    worst = Math.max(worst, Math.abs((left[n] + right[n]) / 2 - take[n] / 2));
  expect(worst).toBeLessThan(1e-7);
  const side = left.map((x, n) => (x - right[n]) / 2);
  expect(Math.max(...side.map(Math.abs))).toBeGreaterThan(0.05);
});

/**
 * Closed form: a copy of gain g, tau late, makes |1 + g e^(-j w tau)|: minima of 20 log10(1 - g) at (2k + 1) / (2 tau).
 * The comb that the sheet warns of must stand in the render of the very same wiring.
 */
test("a leaking unit's comb is where the wiring says", () => {
  const leaky = rigOf(
    [
      pedal("S", "tremolo", "mono-to-stereo", { depth: 0 }),
      pedal(
        "U",
        "delay",
        "mono",
        { delayMs: 1500, feedback: 0 },
        { canGoFullyWet: false, dryLeakDb: -6, latencyMs: 1 },
      ),
    ],
    { mixer: { dryDb: 0, returnDb: 0, returnPan: 0 } },
  );
  const comb = combOf(routingsOf(leaky).find(({ id }) => id === "parallel")!.wiring!)!;
  const frames = 16_384;
  const [left] = renderRig(leaky, impulse(frames), rateHz).parallel;
  const re = Float64Array.from(left.subarray(0, frames));
  const im = new Float64Array(frames);
  new AnalysisFft(frames).forward(re, im);
  const levelDb = (hz: number): number => {
    const bin = Math.round((hz * frames) / rateHz);
    return 20 * Math.log10(Math.hypot(re[bin], im[bin]));
  };
  const g = 10 ** (comb.levelDb / 20);
  comb.notchesHz.forEach((hz, k) => {
    expectWithin(hz, (2 * k + 1) / (2 * 0.001), 1e-9, "Hz");
    expectWithin(levelDb(hz), 20 * Math.log10(1 - g), 0.02, "dB");
    expectWithin(levelDb(hz + 500), 20 * Math.log10(1 + g), 0.02, "dB");
  });
});
