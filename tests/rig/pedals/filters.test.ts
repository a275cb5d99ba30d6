import { expect, test } from "vitest";
import { pedalModels } from "../../../src/rig/pedals/models.js";
import { firstOf } from "../../longForm.js";
import { impulse, noise } from "../../signals.js";
import {
  jackCombinations,
  modelOf,
  randomValues,
  type Sound,
  type Values,
  valuesOf,
  wetOf,
} from "./runPedal.js";

const rateHz = 8000;
const frames = 24_000;
/** A burst far from where the impulse stood, on a frame that no block and no ratio of rates likes. */
const [burstFrom, burstFrames] = [5003, 50];

/**
 * Superposition and time invariance, as laws: what a model says of itself (`isFilter`) is that bursts on its inputs come
 * out as the sum of its responses to single impulses, each at its place and times its sample. Of those that say so the
 * rest is rounding; of those that say not, it is to be seen.
 */
test.each(Object.keys(pedalModels))(
  "%s: its responses tell all of it where it says so, and not where it says not",
  (model) => {
    for (const seed of firstOf([1, 2, 3], 2)) {
      for (const settings of [randomValues(model, seed), ...withOneStill(model, seed)]) {
        const isFilter = modelOf(model).isFilter(valuesOf({ model, settings }));
        for (const [inputs, outputs] of jackCombinations) {
          const what = `seed ${seed}, ${inputs} in, ${outputs} out, ${JSON.stringify(settings)}`;
          const parted = partedDb(model, settings, inputs, outputs);
          if (isFilter) expect(parted, what).toBeLessThan(-120);
          else expect(parted, what).toBeGreaterThan(-90);
        }
      }
    }
  },
);

test("there are models that always say so, some that never do, and some that do where they stand still", () => {
  const said = (model: string) =>
    new Set(
      [1, 2, 3]
        .flatMap((seed) => [randomValues(model, seed), ...withOneStill(model, seed)])
        .map((settings) => modelOf(model).isFilter(valuesOf({ model, settings }))),
    );
  const models = Object.keys(pedalModels);
  expect(models.filter((model) => said(model).size === 2)).toEqual([
    "chorus",
    "vibrato",
    "flanger",
    "phaser",
    "tremolo",
    "plate",
    "hall",
  ]);
  expect(models.filter((model) => [...said(model)].join() === "false")).toEqual([
    "compressor",
    "overdrive",
    "spring",
  ]);
});

/** Each setting that can be 0 in turn at 0: a swing among them stands still then. */
const withOneStill = (model: string, seed: number): readonly Values[] =>
  Object.entries(modelOf(model).settings).flatMap(([key, setting]) =>
    "min" in setting && setting.min === 0 && key !== "mix"
      ? [{ ...randomValues(model, seed), [key]: 0 }]
      : [],
  );

/** RMS of what the responses leave over, against the sound, in dB. */
function partedDb(model: string, settings: Values, inputs: 1 | 2, outputs: 1 | 2): number {
  const silence = new Float32Array(frames);
  const only = (place: number, sound: Float32Array): Sound =>
    Array.from({ length: inputs }, (_, n) => (n === place ? sound : silence));
  const bursts = Array.from({ length: inputs }, (_, n) => {
    const burst = new Float32Array(frames);
    burst.set(noise({ seed: 31 + n, frames: burstFrames, rms: 0.2 }), burstFrom);
    return burst;
  });
  const run = (input: Sound) => wetOf({ model, settings, input, outputs, rateHz });
  const heard = run(bursts);
  const expected = heard.map(() => new Float64Array(frames));
  for (let i = 0; i < inputs; i++) {
    run(only(i, impulse(frames))).forEach((response, o) => {
      for (let n = burstFrom; n < burstFrom + burstFrames; n++) {
        const sample = bursts[i][n];
        for (let k = 0; k < frames - n; k++) expected[o][n + k] += sample * response[k];
      }
    });
  }
  let [left, sound] = [0, 0];
  heard.forEach((channel, o) => {
    channel.forEach((x, n) => {
      left += (x - expected[o][n]) ** 2;
      sound += x * x;
    });
  });
  return 10 * Math.log10(left / sound);
}
