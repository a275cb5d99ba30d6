import { describe, expect, test } from "vitest";
import type { Rig } from "../../../src/rig/model/rig.js";
import { routingsOf } from "../../../src/rig/routings/routingsOf.js";
import type { Wiring } from "../../../src/rig/wiring/wiring.js";
import { dbToGain } from "../../../src/sound/dsp/units.js";
import { compile } from "../../../src/work/render/compile.js";
import { pedal, rigOf, simpleRig } from "../../rigs.js";
import { impulse, noise } from "../../signals.js";
import { renderRig, renderWirings } from "./renders.js";

const rateHz = 48_000;
const wiringsOf = (rig: Rig): Wiring[] => routingsOf(rig).flatMap(({ wiring }) => wiring ?? []);
const wiringOf = (rig: Rig, id: string): Wiring => routingsOf(rig).find((r) => r.id === id)!.wiring!;

describe("one graph for all routings", () => {
  /*
   * Swing (tremolo, one in, two out) then Echo (delay). Kernels that are needed, each once:
   *   Swing 1->1 of the take (series-mono); Swing 1->2 of the take (all but unit-first); Swing of Echo's output (unit-first);
   *   Echo of: mono Swing (series-mono), the take (unit-first, parallel), left (dual-mono, one-side), right (dual-mono),
   *   the sum (parallel-after, summed), both sides (stereo-unit).
   */
  test("what is equal in kind, settings and inputs is computed once", () => {
    const graph = compile(wiringsOf(simpleRig()), { rateHz });
    const alone = wiringsOf(simpleRig()).map((wiring) => compile([wiring], { rateHz }).nodeCount);
    const kernels = 3 + 6;
    const mixes = graph.nodeCount - kernels;
    expect(alone.reduce((sum, count) => sum + count, 0)).toBeGreaterThan(graph.nodeCount);
    // Sums: Echo's blend in each routing that has one, the mixers' buses, and the summed input.
    expect(mixes).toBeLessThanOrEqual(16);
    expect(graph.nodeCount).toBeGreaterThanOrEqual(kernels);
  });

  test("buffers do not grow with the number of nodes", () => {
    const long = (count: number) =>
      rigOf(
        Array.from({ length: count }, (_, n) => pedal(`P${n}`, "tremolo", "mono", { lfoHz: 1 + n / 10 })),
      );
    const buffers = (count: number) => compile([wiringOf(long(count), "as-given")], { rateHz }).bufferCount;
    expect(buffers(40)).toBe(buffers(5));
  });

  test("sharing and the order of boxes and cables change nothing, to the bit", () => {
    const rig = simpleRig();
    const take = noise({ seed: 5, frames: 9000 });
    const together = renderWirings(wiringsOf(rig), take, rateHz);
    wiringsOf(rig).forEach((wiring, n) => {
      const shuffled = { boxes: [...wiring.boxes].reverse(), cables: [...wiring.cables].reverse() };
      expect(renderWirings([shuffled], take, rateHz)[0]).toEqual(together[n]);
    });
  });
});

test("block sizes from 1 to 65536 agree to the bit", () => {
  const rig = rigOf([
    pedal("Drive", "overdrive", "mono"),
    pedal("Swirl", "chorus", "mono-to-stereo"),
    pedal("Echo", "delay", "stereo", { pingPong: true, delayMs: 90 }),
    pedal("Late", "tremolo", "mono", {}, { latencyMs: 1.234 }),
  ]);
  const take = noise({ seed: 6, frames: 7001 });
  const expected = renderRig(rig, take, rateHz, { blockFrames: 1024 });
  for (const blockFrames of [1, 7, 64, 511, 4800, 65_536]) {
    expect(renderRig(rig, take, rateHz, { blockFrames }), `blocks of ${blockFrames}`).toEqual(expected);
  }
});

describe("closed forms of simple boxes", () => {
  const boost = (name: string, gainDb: number, rest = {}) => pedal(name, "boost", "mono", { gainDb }, rest);

  test("gain, trim and polarity of a pedal", () => {
    const rig = rigOf([boost("A", 6, { levelDb: -2, invertsPolarity: true })]);
    const [left, right] = renderRig(rig, impulse(64), rateHz)["as-given"];
    expect(left[0]).toBeCloseTo(-dbToGain(4), 6);
    expect(right).toEqual(left);
  });

  test("latency: whole frames exactly, on dry and wet alike", () => {
    const rig = rigOf([boost("A", 0, { latencyMs: 1 })]);
    const [left] = renderRig(rig, impulse(100), rateHz)["as-given"];
    expect(left.indexOf(1)).toBe(48);
  });

  test("a mixer's return is equal-power: both buses 3.01 dB down at the centre", () => {
    const split = rigOf([pedal("S", "tremolo", "mono-to-stereo", { depth: 0 }), boost("U", 0)], {
      mixer: { dryDb: -200, returnDb: 0, returnPan: 0 },
    });
    const [left, right] = renderRig(split, impulse(64), rateHz).parallel;
    expect(left[0]).toBeCloseTo(Math.SQRT1_2, 6);
    expect(right[0]).toBeCloseTo(Math.SQRT1_2, 6);
  });

  test("an oversampled drive's own lag never sounds: beside the dry signal it makes no comb", () => {
    const rig = rigOf([
      pedal("S", "tremolo", "mono-to-stereo", { depth: 0 }),
      pedal("U", "overdrive", "mono", {}),
    ]);
    const take = impulse(400).map((x) => x * 1e-4);
    const first = (x: Float32Array) =>
      x.reduce((best, v, n) => (Math.abs(v) > Math.abs(x[best]) ? n : best), 0);
    const { parallel, "series-mono": series } = renderRig(rig, take, rateHz);
    expect(first(parallel[0])).toBe(0);
    expect(Math.abs(first(series[0]))).toBeLessThanOrEqual(2);
  });

  test("switched off: passes, or mutes", () => {
    const rig = simpleRig();
    const off = (whenOff: "true-bypass" | "muted"): Wiring => {
      const wiring = wiringOf(rig, "unit-first");
      return {
        cables: wiring.cables,
        boxes: wiring.boxes.map((box) =>
          box.kind === "pedal" ? { ...box, on: false, pedal: { ...box.pedal, whenOff } } : box,
        ),
      };
    };
    const take = noise({ seed: 8, frames: 500 });
    expect(renderWirings([off("true-bypass")], take, rateHz)[0][1]).toEqual(take);
    expect(renderWirings([off("muted")], take, rateHz)[0][0].every((x) => x === 0)).toBe(true);
  });
});
