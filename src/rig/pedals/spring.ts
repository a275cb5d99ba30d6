import type { Block, Kernel, Settings, SettingTable } from "../../sound/dsp/kernel.js";
import { Lowering, type LowRate, lowRate, Raising } from "../../sound/dsp/lowRate.js";
import { OnePoleCut } from "../../sound/dsp/onePole.js";
import { silent } from "../../sound/dsp/silent.js";
import { springDesign } from "../../sound/dsp/springDesign.js";
import { SpringLine } from "../../sound/dsp/springLine.js";
import { besideDry, type PedalModel, type PedalUse } from "./pedalModel.js";

export const springSettings = {
  decaySeconds: {
    isMain: true,
    default: 2,
    min: 0.3,
    max: 10,
    log: true,
    says: "time in which the sound falls by 60 dB",
  },
  springs: { default: 2, min: 1, max: 3, whole: true, says: "springs side by side, of different lengths" },
  echoMs: { default: 56, min: 30, max: 90, log: true, says: "time between the echoes of the first spring" },
  transitionHz: { default: 4300, min: 2000, max: 6000, log: true, says: "highest frequency that it carries" },
  mix: { isMain: true, default: 0.35, min: 0, max: 1, says: "share of the effect; the rest is dry" },
} as const satisfies SettingTable;

/**
 * A spring tank: one to three springs whose echoes are chirps, low notes first.
 * Source: V. Valimaki, J. S. Parker and J. S. Abel, "Parametric spring reverberation effect", J. Audio Eng. Soc. 58(7/8),
 * 2010; the chirps below the transition frequency. The far weaker ones above it are left out.
 *
 * Two outputs are two tanks, of unlike springs; each hears its own input, or the only one. One output: the left tank.
 * Wet level: a response of about unit energy below the transition frequency.
 */
export const spring: PedalModel<typeof springSettings> = {
  kind: "Reverb",
  plural: "reverbs",
  settings: springSettings,
  ...besideDry,
  kernel: (settings, use) => new Tanks(settings, use),
  silenceMs: ({ echoMs }) => 2 * echoMs,
  changesInTime: false,
  nonlinear: false,
  standard: "its chain of all-passes runs at a sample rate of its own, which no standard node does",
  costNs: 75,
};

/** Lengths against the first spring of the left tank, so that no two echoes fall together for long; by eye, no source. */
const lengths = [
  [1, 0.813, 1.219],
  [0.937, 1.141, 0.757],
] as const;

/** The drive's coil passes nothing slower; Valimaki, Parker and Abel 2010. */
const dcCutHz = 40;
const chunkFrames = 128;

class Tanks implements Kernel {
  readonly #drives: readonly Drive[];
  readonly #tanks: readonly Tank[];
  constructor(settings: Settings<typeof springSettings>, { inputs, outputs, rateHz }: PedalUse) {
    const low = lowRate(2 * Math.min(settings.transitionHz, 0.45 * rateHz), rateHz);
    this.#drives = Array.from({ length: inputs }, () => new Drive(low));
    this.#tanks = lengths.slice(0, outputs).map((shares) => new Tank(settings, shares, low));
  }

  process(inputs: Block, outputs: Block, frames: number): void {
    for (let done = 0, run = 0; done < frames; done += run) {
      run = Math.min(chunkFrames, frames - done);
      for (let i = 0; i < this.#drives.length; i++) this.#drives[i].process(inputs[i], done, run);
      for (let o = 0; o < outputs.length; o++) {
        const drive = this.#drives[o < this.#drives.length ? o : 0];
        this.#tanks[o].process(drive, outputs[o], done, run);
      }
    }
  }
}

/** From the input to the springs' rate. */
class Drive {
  readonly samples: Float64Array;
  sampleCount = 0;
  readonly lowering: Lowering;
  readonly #sound = new Float64Array(chunkFrames);
  readonly #dcCut: OnePoleCut;
  constructor(low: LowRate) {
    this.lowering = new Lowering(low, chunkFrames);
    this.samples = new Float64Array(chunkFrames + 2);
    this.#dcCut = new OnePoleCut(dcCutHz, low.rateHz);
  }
  process(input: Float32Array, from: number, frames: number): void {
    const sound = this.#sound;
    for (let n = 0; n < frames; n++) sound[n] = input[from + n];
    this.sampleCount = this.lowering.process(sound, this.samples, frames);
    this.#dcCut.process(this.samples, this.sampleCount);
  }
}

/** Springs side by side, back at the sound's rate. */
class Tank {
  readonly #lines: readonly SpringLine[];
  readonly #mostSamples: number;
  readonly #raising: Raising;
  readonly #heard = new Float64Array(chunkFrames + 2);
  readonly #sound = new Float64Array(chunkFrames);
  readonly #gain: number;

  constructor(settings: Settings<typeof springSettings>, shares: readonly number[], low: LowRate) {
    const { decaySeconds, springs, echoMs } = settings;
    this.#raising = new Raising(low, chunkFrames);
    const designs = shares.slice(0, springs).map((share) =>
      springDesign({
        decaySeconds,
        echoSeconds: (share * echoMs) / 1000,
        rateHz: low.rateHz,
        lagSamples: low.lagSeconds * low.rateHz,
      }),
    );
    this.#lines = designs.map((design) => new SpringLine(design));
    this.#mostSamples = Math.min(...this.#lines.map((line) => line.mostSamples));
    this.#gain = 1 / Math.sqrt(designs.reduce((sum, { energy }) => sum + energy, 0));
  }

  process(drive: Drive, output: Float32Array, from: number, frames: number): void {
    const heard = this.#heard;
    heard.fill(0, 0, drive.sampleCount);
    for (let done = 0; done < drive.sampleCount; done += this.#mostSamples) {
      const count = Math.min(this.#mostSamples, drive.sampleCount - done);
      for (const line of this.#lines) line.process(drive.samples, heard, done, count);
    }
    const sound = this.#sound;
    this.#raising.process(heard, sound, frames, drive.lowering.betweenCount);
    const gain = this.#gain;
    for (let n = 0; n < frames; n++) output[from + n] = Math.abs(sound[n]) < silent ? 0 : gain * sound[n];
  }
}
