import { DispersiveChains, dispersiveBytes } from "../../sound/dsp/dispersiveChains.js";
import type { Block, Kernel, Settings, SettingTable } from "../../sound/dsp/kernel.js";
import {
  Lowering,
  type LowRate,
  loweringBytes,
  lowRate,
  Raising,
  raisingBytes,
} from "../../sound/dsp/lowRate.js";
import { OnePoleCut } from "../../sound/dsp/onePole.js";
import { type SpringDesign, springCoefficient, springDesign } from "../../sound/dsp/springDesign.js";
import { SpringLine } from "../../sound/dsp/springLine.js";
import { openRoom, type Room } from "../../sound/loops/room.js";
import { silent } from "../../sound/loops/silent.js";
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
  /** Not at all: what its filters leave of images, some 43 dB down, moves with the frame on which a sound falls. */
  isFilter: () => false,
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
const chunkFrames = 256;

class Tanks implements Kernel {
  readonly #drives: readonly Drive[];
  readonly #tanks: readonly Tank[];
  /** Of all springs, those of the left tank first. */
  readonly #chains: DispersiveChains;
  /** What goes round a spring must not come back within one run. */
  readonly #mostSamples: number;

  constructor(settings: Settings<typeof springSettings>, { inputs, outputs, rateHz }: PedalUse) {
    const low = lowRate(2 * Math.min(settings.transitionHz, 0.45 * rateHz), rateHz);
    const designs = lengths.slice(0, outputs).map((shares) => designsOf(settings, shares, low));
    const springs = designs.flat();
    const sections = springs.map((design) => design.sections);
    const room = openRoom(
      inputs * loweringBytes(low, chunkFrames) +
        outputs * raisingBytes(low, chunkFrames) +
        dispersiveBytes(sections),
    );
    this.#mostSamples = Math.min(mostRunSamples, ...springs.map(({ lineSamples }) => lineSamples));
    this.#chains = new DispersiveChains(
      sections,
      springCoefficient,
      springs[0].gain,
      this.#mostSamples,
      room,
    );
    this.#drives = Array.from({ length: inputs }, () => new Drive(low, room));
    this.#tanks = designs.map((ofTank) => {
      const lines = ofTank.map(
        (design) => new SpringLine(design, this.#chains.signals[springs.indexOf(design)]),
      );
      const energy = ofTank.reduce((sum, design) => sum + design.energy, 0);
      return new Tank(lines, 1 / Math.sqrt(energy), low, room);
    });
  }

  process(inputs: Block, outputs: Block, frames: number): void {
    for (let done = 0, run = 0; done < frames; done += run) {
      run = Math.min(chunkFrames, frames - done);
      for (let i = 0; i < this.#drives.length; i++) this.#drives[i].process(inputs[i], done, run);
      this.#ring();
      for (let o = 0; o < outputs.length; o++) this.#tanks[o].give(this.#driveOf(o), outputs[o], done, run);
    }
  }

  /** All springs, for the samples that the drives have made. */
  #ring(): void {
    const { sampleCount } = this.#drives[0].lowering;
    for (const tank of this.#tanks) tank.heard.fill(0, 0, sampleCount);
    for (let done = 0; done < sampleCount; done += this.#mostSamples) {
      const count = Math.min(this.#mostSamples, sampleCount - done);
      for (let o = 0; o < this.#tanks.length; o++) {
        const { samples } = this.#driveOf(o).lowering;
        for (const line of this.#tanks[o].lines) line.enter(samples, done, count);
      }
      this.#chains.process(count);
      for (const { lines, heard } of this.#tanks) for (const line of lines) line.leave(heard, done, count);
    }
  }

  #driveOf(output: number): Drive {
    return this.#drives[output < this.#drives.length ? output : 0];
  }
}

/** The most samples that springs ring at once. */
const mostRunSamples = 128;

const designsOf = (
  { decaySeconds, springs, echoMs }: Settings<typeof springSettings>,
  shares: readonly number[],
  low: LowRate,
): readonly SpringDesign[] =>
  shares.slice(0, springs).map((share) =>
    springDesign({
      decaySeconds,
      echoSeconds: (share * echoMs) / 1000,
      rateHz: low.rateHz,
      lagSamples: low.lagSeconds * low.rateHz,
    }),
  );

/** From the input to the springs' rate. */
class Drive {
  readonly lowering: Lowering;
  readonly #dcCut: OnePoleCut;
  constructor(low: LowRate, room: Room) {
    this.lowering = new Lowering(low, chunkFrames, room);
    this.#dcCut = new OnePoleCut(dcCutHz, low.rateHz);
  }
  process(input: Float32Array, from: number, frames: number): void {
    const { lowering } = this;
    lowering.process(input, from, frames);
    this.#dcCut.process(lowering.samples, lowering.sampleCount);
  }
}

/** Springs side by side, back at the sound's rate. */
class Tank {
  readonly lines: readonly SpringLine[];
  readonly #raising: Raising;
  readonly #gain: number;

  constructor(lines: readonly SpringLine[], gain: number, low: LowRate, room: Room) {
    this.lines = lines;
    this.#gain = gain;
    this.#raising = new Raising(low, chunkFrames, room);
  }

  /** To be filled with what the springs give, at their rate. */
  get heard(): Float64Array {
    return this.#raising.samples;
  }

  give({ lowering }: Drive, output: Float32Array, from: number, frames: number): void {
    const { sound } = this.#raising;
    this.#raising.process(frames, lowering.betweenCount);
    const gain = this.#gain;
    for (let n = 0; n < frames; n++) output[from + n] = Math.abs(sound[n]) < silent ? 0 : gain * sound[n];
  }
}
