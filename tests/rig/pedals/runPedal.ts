import { pedalModels } from "../../../src/rig/pedals/models.js";
import type { PedalModel, PedalUse } from "../../../src/rig/pedals/pedalModel.js";
import { initialiseFft } from "../../../src/sound/dsp/fft.js";
import { defaultsOf, type Kernel, type SettingValue } from "../../../src/sound/dsp/kernel.js";
import { noise, randomNumbers } from "../../signals.js";

/** Convolution needs it before any kernel is made. */
await initialiseFft();

export type Sound = readonly Float32Array[];
export type Values = Readonly<Record<string, SettingValue>>;

export interface PedalRun {
  readonly model: string;
  /** What differs from the defaults. */
  readonly settings?: Values;
  readonly input: Sound;
  readonly outputs?: 1 | 2;
  readonly rateHz?: number;
  readonly blockFrames?: number;
  readonly interpolation?: "cubic" | "linear";
}

/** Ways to plug a pedal: channels in and out. */
export const jackCombinations: readonly (readonly [1 | 2, 1 | 2])[] = [
  [1, 1],
  [1, 2],
  [2, 2],
];

/** The wet sound alone. */
export function wetOf(run: PedalRun): Sound {
  return runKernel(kernelOf(run), run.input, run.outputs ?? 1, run.blockFrames ?? 512);
}

/** The pedal as the engine mixes it: out = dry in + wet effect. */
export function soundOf(run: PedalRun): Sound {
  const { outputs = 1 } = run;
  const { dry, wet } = modelOf(run.model).blend(valuesOf(run), outputs);
  return wetOf(run).map((effect, c) => {
    const input = run.input[Math.min(c, run.input.length - 1)];
    return effect.map((sample, n) => dry[c] * input[n] + wet[c] * sample);
  });
}

export function kernelOf(run: PedalRun): Kernel {
  const { model, input, outputs = 1, rateHz = 48_000, interpolation = "cubic" } = run;
  const use: PedalUse = {
    rateHz,
    inputs: input.length === 2 ? 2 : 1,
    outputs,
    interpolation,
    clips: new Map([[clipName, [decayingNoise(1, rateHz), decayingNoise(2, rateHz)]]]),
  };
  return modelOf(model).kernel(valuesOf(run), use);
}

export function modelOf(word: string): PedalModel {
  const model = pedalModels[word];
  if (!model) throw new Error(`no model ${word}`);
  return model;
}

/** Every setting, with the clip's name where a file is asked for. */
export function valuesOf({ model, settings = {} }: Pick<PedalRun, "model" | "settings">): Values {
  const table = modelOf(model).settings;
  const files = Object.entries(table).filter(([, setting]) => "file" in setting);
  return { ...defaultsOf(table), ...Object.fromEntries(files.map(([key]) => [key, clipName])), ...settings };
}

/** Runs a kernel over whole channels in blocks of one size; the last may be shorter. */
export function runKernel(kernel: Kernel, input: Sound, outputs: number, blockFrames: number): Sound {
  const frames = input[0].length;
  const out = Array.from({ length: outputs }, () => new Float32Array(frames));
  for (let from = 0; from < frames; from += blockFrames) {
    const to = Math.min(frames, from + blockFrames);
    kernel.process(
      input.map((channel) => channel.subarray(from, to)),
      out.map((channel) => channel.subarray(from, to)),
      to - from,
    );
  }
  return out;
}

const clipName = "clip.wav";

/** A stand-in for a measured response: 0.2 s of noise falling by 60 dB. */
function decayingNoise(seed: number, rateHz: number): Float32Array {
  const frames = Math.round(0.2 * rateHz);
  return noise({ seed, frames }).map((sample, n) => sample * 10 ** ((-3 * n) / frames));
}

/** Values between the ends of every setting, by a seed. */
export function randomValues(model: string, seed: number): Values {
  const next = randomNumbers(seed);
  const values: Record<string, SettingValue> = {};
  for (const [key, setting] of Object.entries(modelOf(model).settings)) {
    if ("min" in setting) {
      const value = setting.min + next() * (setting.max - setting.min);
      values[key] = setting.whole ? Math.round(value) : value;
    } else if ("choices" in setting)
      values[key] = setting.choices[Math.floor(next() * setting.choices.length)];
    else if (typeof setting.default === "boolean") values[key] = next() < 0.5;
  }
  return values;
}

/** Each setting in turn at each of its ends, or each of its choices; the others at their defaults. */
export function endsOf(model: string): readonly Values[] {
  return Object.entries(modelOf(model).settings).flatMap(([key, setting]): Values[] => {
    if ("min" in setting) return [{ [key]: setting.min }, { [key]: setting.max }];
    if ("choices" in setting) return setting.choices.map((choice) => ({ [key]: choice }));
    return typeof setting.default === "boolean" ? [{ [key]: true }, { [key]: false }] : [];
  });
}
