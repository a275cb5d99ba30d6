import { expect, test } from "vitest";
import type { Jacks } from "../../../src/rig/model/rig.js";
import type { SettingValue } from "../../../src/sound/dsp/kernel.js";
import { judgedWords } from "../../../src/words/crosscheckWords.js";
import { pedal, rigOf } from "../../rigs.js";
import { checked } from "./rendered.js";

type Values = Record<string, SettingValue>;

/**
 * What no standard node makes and stands still, as a ConvolverNode of an independent engine with its own responses: one a
 * pair of input and output, cross-feed among them. Closed form: superposition of shifted responses.
 */
test.each<[string, Jacks, Values]>([
  ["plate", "mono", { excursionMs: 0 }],
  ["plate", "mono-to-stereo", { excursionMs: 0, preDelayMs: 30 }],
  ["plate", "stereo", { excursionMs: 0, decaySeconds: 0.3 }],
  ["hall", "stereo", { excursionMs: 0, decaySeconds: 0.4 }],
  ["delay", "stereo", { delayMs: 3, feedback: 0.9, pingPong: true }],
  ["phaser", "mono-to-stereo", { sweepOctaves: 0, feedback: 0.7, stages: 5 }],
])("%s, %s, %j: by its own response", async (model, jacks, settings) => {
  // Ahead of it the sides part, so that both inputs hear something else.
  const ahead = pedal("Ahead", "delay", "mono-to-stereo", {
    delayMs: 20,
    feedback: 0,
    rightDelayRatio: 1.5,
    mix: 0.5,
  });
  const box = pedal("Box", model, jacks, { mix: 0.6, ...settings }, { latencyMs: 0.7 });
  const found = await checked(rigOf([ahead, box]), { rateHz: 16_000, seconds: 0.1 });
  const compared = found.filter(({ skipped }) => skipped === null);
  expect(compared.length).toBeGreaterThan(0);
  for (const { id, rmsDbfs, withinTarget, targetBy, pedals } of compared) {
    expect(
      pedals.find(({ name }) => name !== "Ahead"),
      id,
    ).toMatchObject({ by: "response" });
    expect({ id, withinTarget, targetBy }).toEqual({ id, withinTarget: true, targetBy: "rounding" });
    expect(rmsDbfs, id).toBeLessThan(-135);
  }
});

test("what would take the second engine too long is compared for a shorter time, and told", async () => {
  const swing = pedal("Swing", "tremolo", "mono-to-stereo");
  const sheet = pedal("Sheet", "plate", "mono", { excursionMs: 0, decaySeconds: 20 });
  const found = await checked(rigOf([swing, sheet]), { rateHz: 8000, seconds: 1 });
  const seconds = new Map(found.map(({ id, comparedSeconds }) => [id, comparedSeconds]));
  // 2.5 s of sound by 2.5 s of response for one unit, half of it for two.
  expect(seconds.get("series-mono")).toBeGreaterThan(2.2);
  expect(seconds.get("series-mono")).toBeLessThan(2.5);
  expect(seconds.get("dual-mono")).toBeGreaterThan(1.5);
  expect(seconds.get("dual-mono")).toBeLessThan(1.8);
  expect(judgedWords(found).join(" ")).toMatch(
    /Long responses take the second engine long: .*dual-mono was compared for 1\.\d s/,
  );
});
