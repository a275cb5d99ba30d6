import type { Kernel, Settings, SettingTable } from "../../sound/dsp/kernel.js";
import type { StandardModel } from "../../sound/standard/standardModel.js";

/** How a pedal is plugged and run: what its kernel must know besides its settings. */
export interface PedalUse {
  readonly rateHz: number;
  /** Channels that arrive: 1 when only the left (mono) input is used. */
  readonly inputs: 1 | 2;
  /** Channels that leave: 1 when only the left (mono) output is used. */
  readonly outputs: 1 | 2;
  /** How modulated delays read between frames; `linear` only for the cross-check with an engine that reads so. */
  readonly interpolation: "cubic" | "linear";
  /** Sound files named by settings, at `rateHz`, by the value of the setting. */
  readonly clips: ReadonlyMap<string, readonly Float32Array[]>;
}

/** Gains of the two paths through a pedal, one a channel that leaves: `out = dry * in + wet * effect`. */
export interface Blend {
  readonly dry: readonly number[];
  readonly wet: readonly number[];
}

/**
 * A kind of pedal. The kernel gives the wet sound alone; `blend` says how dry and wet are mixed. The engine does the
 * mixing, so that a unit at 35 % and the same unit fully wet share one kernel.
 */
export interface PedalModel<T extends SettingTable = SettingTable> {
  /** What a person calls it, with a capital: "Reverb", "Delay", "Tremolo". Labels are made from it. */
  readonly kind: string;
  /** The plural in small letters, for labels: "reverbs", "delays". */
  readonly plural: string;
  readonly settings: T;
  /**
   * True when its effect stands beside the dry sound: it has a `mix`, which only `blend` reads, and can run fully wet.
   * False when its whole sound goes through it (a drive, a tone control).
   */
  readonly additive: boolean;
  /** Gain of the sound itself through the wet path: 0 where an effect is made of it, else mostly 1. */
  directGain(settings: Settings<T>): number;
  /** The wet path. No dry sound in it unless the model has no other (a tremolo is all wet). */
  kernel(settings: Settings<T>, use: PedalUse): Kernel;
  /** Additive models: linear, dry 1 - mix and wet mix. Others: dry 0, wet 1. */
  blend(settings: Settings<T>, outputs: 1 | 2): Blend;
  /** The longest silence, in ms, after which sound may still come out (a delay: its time). Ends the tail rightly. */
  silenceMs(settings: Settings<T>): number;
  /** Latency of the algorithm itself in frames, for instance of an oversampling filter; 0 for most. */
  latencyFrames?(settings: Settings<T>, rateHz: number): number;
  /** Its wet path of standard Web Audio nodes, for the cross-check; or why there is none, as the end of a sentence. */
  readonly standard: StandardModel<T> | string;
  /** True when the output at one moment is not a time-invariant linear function of the input. */
  readonly changesInTime: boolean;
  readonly nonlinear: boolean;
  /**
   * True where, at these settings, the wet path is linear and does the same at every frame, to 120 dB under its sound: its
   * impulse responses then say all that it does.
   */
  isFilter(settings: Settings<T>): boolean;
  /** True for what is there to make it louder: nobody turns it down so that on and off are alike. */
  readonly isMeantToBeLouder?: true;
  /** What a frame of one output takes the kernel, on the machine of the benches: work is shared out by it. */
  readonly costNs: number;
}

/** Ways of making the second output of a modulated pedal; design in DEVELOPERS.md, "Second outputs". */
export const secondOutputSettings = {
  secondOutput: {
    default: "phase",
    choices: ["phase", "inverted-wet", "wet-dry"],
    says: "how the right output is made: LFO phase spread, wet inverted, or wet left and dry right",
  },
  spreadDegrees: { default: 90, min: 0, max: 360, says: "LFO phase of the right output behind the left" },
} as const satisfies SettingTable;

/** Dry 1 - mix, wet mix, on every output. */
function mixBlend(mix: number, outputs: 1 | 2): Blend {
  return { dry: Array(outputs).fill(1 - mix), wet: Array(outputs).fill(mix) };
}

/** Additive models. */
export const besideDry = {
  additive: true,
  directGain: () => 0,
  blend: ({ mix }: { mix: number }, outputs: 1 | 2) => mixBlend(mix, outputs),
};

/** Models without a dry path: the kernel's output is the pedal's output. */
export const wholeSound = {
  additive: false,
  directGain: () => 1,
  blend: (_settings: unknown, outputs: 1 | 2): Blend => ({
    dry: Array(outputs).fill(0),
    wet: Array(outputs).fill(1),
  }),
};

/** The blend of a modulated pedal with a second output made as `secondOutput` says; one output: an ordinary mix. */
export function secondOutputBlend(settings: { mix: number; secondOutput: string }, outputs: 1 | 2): Blend {
  const { mix, secondOutput } = settings;
  if (outputs === 1 || secondOutput === "phase") return mixBlend(mix, outputs);
  if (secondOutput === "inverted-wet") return { dry: [1 - mix, 1 - mix], wet: [mix, -mix] };
  return { dry: [0, 1], wet: [1, 0] };
}

/** Phase of the right channel's LFO behind the left's, in degrees: the spread, or 0 when the side is made otherwise. */
export function rightPhaseDegrees(settings: { secondOutput: string; spreadDegrees: number }): number {
  return settings.secondOutput === "phase" ? settings.spreadDegrees : 0;
}
