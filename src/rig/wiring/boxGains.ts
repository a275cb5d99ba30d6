import { dbToGain } from "../../sound/dsp/units.js";
import { modelOf } from "../pedals/models.js";
import { blendOf } from "./blend.js";
import { panGains } from "./pan.js";
import type { MixerBox, PedalBox, SplitterBox, SummingBox, TakeBox } from "./wiring.js";

/** `gains[output][input]`: each output is the sum of the inputs, each times its gain. */
export type Gains = readonly (readonly number[])[];

/**
 * What a box without a model does to its inputs, as matrices one after the other. A mixer with one output is two: onto
 * its buses, then their mean, (L + R) / 2. An instrument's are its own sides. What is muted gives nothing.
 */
export function gainsOf(box: TakeBox | SplitterBox | SummingBox | MixerBox): readonly Gains[] {
  switch (box.kind) {
    case "take":
      return [box.outputs < box.channels ? mean(box.channels) : sides(box.channels)];
    case "splitter":
      return [Array.from({ length: box.outputs }, (_, n) => [box.muted?.[n] ? 0 : 1])];
    case "summing-box":
      return [mean(box.inputs)];
    case "mixer": {
      const bus = (side: 0 | 1) =>
        box.inputs.map(({ gainDb, pan, muted }) => (muted ? 0 : dbToGain(gainDb) * panGains(pan)[side]));
      const buses = [bus(0), bus(1)];
      return box.outputs === 2 ? [buses] : [buses, mean(2)];
    }
  }
}

/** The same as one matrix. */
export const wholeGainsOf = (box: SplitterBox | SummingBox | MixerBox): Gains =>
  gainsOf(box).reduce((first, then) =>
    then.map((row) =>
      first[0].map((_, input) => row.reduce((sum, gain, n) => sum + gain * first[n][input], 0)),
    ),
  );

/** From a pedal's inputs to what it hears: the mean of both where it has one output, else each. */
export const intoPedal = ({ inputs, outputs }: PedalBox): Gains =>
  inputs > outputs ? mean(inputs) : sides(inputs);

/**
 * From what a pedal hears, and behind it the effect of each output where that is heard, to its outputs. Each output has
 * its own side, or the only one there is. Off, it passes what it hears, or mutes.
 */
export function outOfPedal(box: PedalBox): Gains {
  const { dry, wet } = blendOf(box);
  const effect = (output: number) => (isWet(box) ? unit(output, wet.length, wet[output]) : []);
  return dry.map((gain, output) => [...fromHeard(box, output, gain), ...effect(output)]);
}

/**
 * As `outOfPedal`, of the signal itself: the dry sound, and what a model makes of it that has no dry sound (a drive, a
 * tone control).
 */
export function directOutOfPedal(box: PedalBox): Gains {
  const { dry, wet } = blendOf(box);
  const through = modelOf(box.pedal.model).directGain(box.pedal.settings);
  return dry.map((gain, output) => fromHeard(box, output, gain + through * wet[output]));
}

/** True where a pedal gives more than its input. */
export const isWet = (box: PedalBox): boolean => blendOf(box).wet.some((gain) => gain !== 0);

/**
 * Signals of any sort through matrices.
 * @param mixed the sum of signals times their gains, none of them 0; of none: silence
 */
export function through<S>(
  matrices: readonly Gains[],
  inputs: readonly S[],
  mixed: (signals: readonly S[], gains: readonly number[]) => S,
): readonly S[] {
  return matrices.reduce<readonly S[]>(
    (signals, gains) =>
      gains.map((row) => {
        const heard = signals.filter((_, n) => row[n] !== 0);
        const heardGains = row.filter((gain) => gain !== 0);
        return heard.length === 1 && heardGains[0] === 1 ? heard[0] : mixed(heard, heardGains);
      }),
    inputs,
  );
}

const fromHeard = ({ inputs, outputs }: PedalBox, output: number, gain: number): readonly number[] => {
  const heard = Math.min(inputs, outputs);
  return unit(Math.min(output, heard - 1), heard, gain);
};

const sides = (count: number): Gains => Array.from({ length: count }, (_, n) => unit(n, count));

const mean = (inputs: number): Gains => [Array<number>(inputs).fill(1 / inputs)];

const unit = (place: number, length: number, gain = 1): readonly number[] =>
  Array.from({ length }, (_, n) => (n === place ? gain : 0));
