import { type MonoKernel, perChannel } from "../../sound/dsp/channels.js";
import { DelayLine } from "../../sound/dsp/delayLine.js";
import type { Block, Kernel, SettingTable } from "../../sound/dsp/kernel.js";
import { LoopFilter } from "../../sound/dsp/loopFilter.js";
import { msToFrames } from "../../sound/dsp/units.js";
import { besideDry, type PedalModel, secondOutputBlend } from "./pedalModel.js";

export const delaySettings = {
  delayMs: {
    default: 400,
    min: 1,
    max: 2000,
    log: true,
    says: "time to the first repeat, and between repeats",
  },
  feedback: { default: 0.35, min: 0, max: 0.95, says: "level of each repeat to the one before" },
  toneHz: {
    default: 20000,
    min: 500,
    max: 20000,
    log: true,
    says: "low-pass on each lap; 20000 leaves it out",
  },
  mix: { default: 0.35, min: 0, max: 1, says: "share of the effect; the rest is dry" },
  pingPong: { default: false, says: "repeats go from side to side, left first" },
  rightDelayRatio: {
    default: 1,
    min: 0.25,
    max: 2,
    log: true,
    says: "delay of the right side to that of the left",
  },
  secondOutput: {
    default: "delay",
    choices: ["delay", "inverted-wet", "wet-dry"],
    says: "how the right output is made: its own delay, its wet inverted, or wet left and dry right",
  },
} as const satisfies SettingTable;

/** Corner of the high-pass in the loop. Common practice, no source. */
export const loopHighPassHz = 10;

/**
 * Delay: repeats at k delayMs, k = 1, 2, .., of gain feedback^(k - 1). From the second on, each has been once more
 * through the loop's filters: 10 Hz high-pass, and toneHz low-pass. Delays are rounded to whole frames, so repeats
 * are exact copies however often they go round.
 *
 * Two outputs: each side has its own delay, the right one rightDelayRatio times as long. Ping-pong: the sound, or the
 * mean of left and right, enters on the left; what leaves one side feeds the other, so the repeats alternate.
 * Source: the feedback comb, J. O. Smith, Physical Audio Signal Processing, "Feedback comb filters". Ping-pong: common
 * practice, no source.
 */
export const delay: PedalModel<typeof delaySettings> = {
  kind: "Delay",
  plural: "delays",
  settings: delaySettings,
  ...besideDry,
  kernel({ delayMs, feedback, toneHz, pingPong, rightDelayRatio }, use) {
    const { rateHz } = use;
    const lowPassHz = toneHz < delaySettings.toneHz.max ? toneHz : Number.POSITIVE_INFINITY;
    const make = (side: 0 | 1): Repeats => ({
      delayFrames: Math.max(1, Math.round(msToFrames(delayMs * (side === 1 ? rightDelayRatio : 1), rateHz))),
      feedback,
      filter: new LoopFilter(lowPassHz, loopHighPassHz, rateHz),
    });
    if (pingPong && use.outputs === 2) return new PingPong(make(0), make(1));
    return perChannel(use, (side) => new Echo(make(side)), rightDelayRatio === 1);
  },
  blend: ({ mix, secondOutput }, outputs) =>
    secondOutputBlend({ mix, secondOutput: secondOutput === "delay" ? "phase" : secondOutput }, outputs),
  silenceMs: ({ delayMs, rightDelayRatio }) => delayMs * Math.max(1, rightDelayRatio),
  changesInTime: false,
  nonlinear: false,
  costNs: 5,
};

interface Repeats {
  readonly delayFrames: number;
  readonly feedback: number;
  readonly filter: LoopFilter;
}

class Echo implements MonoKernel {
  readonly #repeats: Repeats;
  readonly #line: DelayLine;
  constructor(repeats: Repeats) {
    this.#repeats = repeats;
    this.#line = new DelayLine(repeats.delayFrames);
  }
  process(input: Float32Array, output: Float32Array, frames: number): void {
    const { delayFrames, feedback, filter } = this.#repeats;
    const { ring, mask, written } = this.#line;
    for (let n = 0; n < frames; n++) {
      const late = ring[(written + n - delayFrames) & mask];
      ring[(written + n) & mask] = input[n] + feedback * filter.next(late);
      output[n] = late;
    }
    this.#line.written = (written + frames) & mask;
  }
}

class PingPong implements Kernel {
  readonly #left: Repeats;
  readonly #right: Repeats;
  readonly #leftLine: DelayLine;
  readonly #rightLine: DelayLine;
  constructor(left: Repeats, right: Repeats) {
    this.#left = left;
    this.#right = right;
    this.#leftLine = new DelayLine(left.delayFrames);
    this.#rightLine = new DelayLine(right.delayFrames);
  }
  process(inputs: Block, [leftOut, rightOut]: Block, frames: number): void {
    const left = inputs[0];
    const right = inputs[inputs.length - 1];
    const leftLine = this.#leftLine;
    const rightLine = this.#rightLine;
    const { delayFrames: leftFrames, feedback, filter: leftFilter } = this.#left;
    const { delayFrames: rightFrames, filter: rightFilter } = this.#right;
    for (let n = 0; n < frames; n++) {
      const entering = 0.5 * (left[n] + right[n]);
      const leftLate = leftLine.read(leftFrames - 1);
      const rightLate = rightLine.read(rightFrames - 1);
      leftLine.write(entering + feedback * rightFilter.next(rightLate));
      rightLine.write(feedback * leftFilter.next(leftLate));
      leftOut[n] = leftLate;
      rightOut[n] = rightLate;
    }
  }
}
