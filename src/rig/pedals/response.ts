import { Convolution } from "../../sound/dsp/convolution.js";
import type { Block, Kernel, Settings, SettingTable } from "../../sound/dsp/kernel.js";
import { dbToGain, secondsToFrames } from "../../sound/dsp/units.js";
import { convolved, sum } from "../../sound/standard/nodes.js";
import { alwaysNear } from "../../sound/standard/standardModel.js";
import { besideDry, type PedalModel, type PedalUse } from "./pedalModel.js";

export const responseSettings = {
  file: { isMain: true, default: "", file: true, says: "WAV of the impulse response: 1, 2 or 4 channels" },
  lengthSeconds: { default: 6, min: 0.01, max: 30, log: true, says: "how much of it is used" },
  levelled: { default: true, says: "scaled to unit energy; off: as recorded" },
  gainDb: { default: 0, min: -24, max: 24, says: "gain of the wet sound" },
  mix: { isMain: true, default: 0.35, min: 0, max: 1, says: "share of the effect; the rest is dry" },
} as const satisfies SettingTable;

/**
 * A real unit or room by its impulse response: wet = gain * (input convolved with the response).
 *
 * One channel serves both sides alike. Two are the responses of the left and the right output, to the left (only) input
 * or each to its own. Four are a true stereo unit: left to left, left to right, right to left, right to right.
 * What is longer than `lengthSeconds` is faded out over its last 10 ms. `levelled` scales all channels by one factor, to
 * unit energy on the mean of the outputs, so that files of any origin sound about as loud as the dry signal.
 *
 * The kernel comes 16 384 frames late and says so (`latencyFrames`): without the direct sums and short partitions that
 * no latency would take, a 3 s response runs five times as fast. `initialiseFft` must have been awaited.
 */
export const response: PedalModel<typeof responseSettings> = {
  kind: "Response",
  plural: "responses",
  settings: responseSettings,
  ...besideDry,
  kernel: (settings, use) => new Responses(settings, use),
  /** A response may hold an echo at its very end. */
  silenceMs: ({ lengthSeconds }) => 1000 * lengthSeconds,
  latencyFrames: () => lagFrames,
  changesInTime: false,
  nonlinear: false,
  isFilter: () => true,
  /** Response: a ConvolverNode from each input to each output, not normalised: the level is the model's. */
  standard: {
    ...alwaysNear,
    convolvers: (settings, use) => responseTaps(settings, use).flat(),
    wet: ({ context, settings, fed, outputs, clips }) => {
      const use = { rateHz: context.sampleRate, inputs: fed.length === 2 ? 2 : 1, outputs, clips } as const;
      return responseTaps(settings, use).map((row) =>
        sum(
          context,
          row.flatMap((taps, input) => (taps.length > 0 ? [convolved(context, fed[input], taps)] : [])),
        ),
      );
    },
  },
  costNs: 25,
};

/** The longest length of partitions: stages with shorter ones have nothing to do. */
const lagFrames = 16_384;
const fadeSeconds = 0.01;

class Responses implements Kernel {
  readonly #convolution: Convolution;
  constructor(settings: Settings<typeof responseSettings>, use: PedalUse) {
    this.#convolution = new Convolution(responseTaps(settings, use).map((row) => row.map(delayed)));
  }
  process(inputs: Block, outputs: Block, frames: number): void {
    this.#convolution.process(inputs, outputs, frames);
  }
}

/** What the input is convolved with: `taps[output][input]`, trimmed, levelled and with the gain; empty joins nothing. */
function responseTaps(
  settings: Settings<typeof responseSettings>,
  use: Pick<PedalUse, "rateHz" | "inputs" | "outputs" | "clips">,
): readonly (readonly Float32Array[])[] {
  const clip = use.clips.get(settings.file);
  if (!clip || clip.length === 0) throw new Error(`response: no clip was handed over for "${settings.file}"`);
  const trimmed = clip.map((channel) => trim(channel, settings.lengthSeconds, use.rateHz));
  const paths = pathsOf(trimmed, use);
  const gain = dbToGain(settings.gainDb) * (settings.levelled ? levelGain(paths) : 1);
  return paths.map((row) => row.map((path) => path.map((sample) => gain * sample)));
}

const nothing = new Float32Array(0);

/** `paths[output][input]`. */
function pathsOf(
  channels: readonly Float32Array[],
  { inputs, outputs }: Pick<PedalUse, "inputs" | "outputs">,
): readonly (readonly Float32Array[])[] {
  const isTrueStereo = channels.length >= 4;
  const [left, right] = isTrueStereo || channels.length >= 2 ? channels : [channels[0], channels[0]];
  if (outputs === 1) return [[left]];
  if (inputs === 1) return [[left], [right]];
  if (!isTrueStereo) {
    return [
      [left, nothing],
      [nothing, right],
    ];
  }
  const [, , rightToLeft, rightToRight] = channels;
  return [
    [left, rightToLeft],
    [right, rightToRight],
  ];
}

function trim(channel: Float32Array, lengthSeconds: number, rateHz: number): Float32Array {
  const frames = secondsToFrames(lengthSeconds, rateHz);
  if (channel.length <= frames) return channel;
  const cut = channel.slice(0, frames);
  const fade = Math.min(frames, secondsToFrames(fadeSeconds, rateHz));
  for (let n = 0; n < fade; n++) {
    cut[frames - fade + n] *= 0.5 + 0.5 * Math.cos((Math.PI * (n + 1)) / fade);
  }
  return cut;
}

/** One over the root of the outputs' mean energy, for inputs with nothing in common; 1 for a silent response. */
function levelGain(paths: readonly (readonly Float32Array[])[]): number {
  const energy = paths.flat().reduce((sum, path) => sum + energyOf(path), 0) / paths.length;
  return energy > 0 ? 1 / Math.sqrt(energy) : 1;
}

const energyOf = (signal: Float32Array): number => signal.reduce((sum, sample) => sum + sample * sample, 0);

function delayed(path: Float32Array): Float32Array {
  if (path.length === 0) return path;
  const late = new Float32Array(lagFrames + path.length);
  late.set(path, lagFrames);
  return late;
}
