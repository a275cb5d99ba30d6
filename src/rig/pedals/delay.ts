import { kernelPerChannel, type MonoKernel } from "../../sound/dsp/channels.js";
import { DelayLine, ringLength } from "../../sound/dsp/delayLine.js";
import type { Block, Kernel, Settings, SettingTable } from "../../sound/dsp/kernel.js";
import { LoopFilter, loopNumbers } from "../../sound/dsp/loopFilter.js";
import { msToFrames } from "../../sound/dsp/units.js";
import { type EchoArrays, echoLoopBytes, echoStates } from "../../sound/loops/echoes.js";
import { openRoom, roomBytes } from "../../sound/loops/room.js";
import { looped, shortestLoopFrames } from "../../sound/standard/loop.js";
import { rounding } from "../../sound/standard/nearness.js";
import { amplified, delayed, sum } from "../../sound/standard/nodes.js";
import { type FedPedal, perSide } from "../../sound/standard/standardModel.js";
import type { StandardContext, StandardNode } from "../../sound/standard/webAudio.js";
import { besideDry, type PedalModel, secondOutputBlend } from "./pedalModel.js";

export const delaySettings = {
  delayMs: {
    isMain: true,
    default: 400,
    min: 1,
    max: 2000,
    log: true,
    says: "time to the first repeat, and between repeats",
  },
  feedback: {
    isMain: true,
    default: 0.35,
    min: 0,
    max: 0.95,
    says: "level of each repeat to the one before",
  },
  toneHz: {
    default: 20000,
    min: 500,
    max: 20000,
    log: true,
    says: "low-pass on each lap; 20000 leaves it out",
  },
  mix: { isMain: true, default: 0.35, min: 0, max: 1, says: "share of the effect; the rest is dry" },
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
  kernel(settings, use) {
    const { pingPong, rightDelayRatio } = settings;
    const isMono = use.outputs === 1 || (use.inputs === 1 && rightDelayRatio === 1 && !pingPong);
    return isMono
      ? kernelPerChannel(use, () => new Echo(settings, use.rateHz), true)
      : new TwoEchoes(settings, use.rateHz);
  },
  blend: ({ mix, secondOutput }, outputs) =>
    secondOutputBlend({ mix, secondOutput: secondOutput === "delay" ? "phase" : secondOutput }, outputs),
  silenceMs: ({ delayMs, rightDelayRatio }) => delayMs * Math.max(1, rightDelayRatio),
  changesInTime: false,
  nonlinear: false,
  isFilter: () => true,
  /**
   * Delay: a DelayNode in a loop with its two first-order filters. What comes out is read from the loop's input by a
   * DelayNode of its own, as long as the loop's.
   */
  standard: {
    whyNot(settings, rateHz, { loopLateFrames }) {
      const frames = Math.min(framesOf(settings, 0, rateHz), framesOf(settings, 1, rateHz));
      const shortest = shortestLoopFrames(loopLateFrames);
      if (settings.feedback === 0 || frames >= shortest) return null;
      return `its loop is ${frames} frames long at ${rateHz} Hz, and loops of standard nodes have at least ${shortest}`;
    },
    nearness: () => rounding,
    wet: (pedal) => {
      const { settings, outputs, context } = pedal;
      if (settings.pingPong && outputs === 2) return pingPong(pedal);
      return perSide(pedal, (input, side) => {
        const frames = framesOf(settings, side, context.sampleRate);
        return delayed(context, repeated(pedal, input, frames, 1), frames);
      });
    },
  },
  costNs: 5,
};

/** One side. */
class Echo implements MonoKernel {
  readonly #delayFrames: number;
  readonly #feedback: number;
  readonly #filter: LoopFilter;
  readonly #line: DelayLine;
  constructor(settings: Settings<typeof delaySettings>, rateHz: number) {
    this.#delayFrames = framesOf(settings, 0, rateHz);
    this.#feedback = settings.feedback;
    this.#filter = new LoopFilter(lowPassHzOf(settings), loopHighPassHz, rateHz);
    this.#line = new DelayLine(this.#delayFrames);
  }
  process(input: Float32Array, output: Float32Array, frames: number): void {
    const delayFrames = this.#delayFrames;
    const feedback = this.#feedback;
    const filter = this.#filter;
    const { ring, mask, written } = this.#line;
    for (let n = 0; n < frames; n++) {
      const late = ring[(written + n - delayFrames) & mask];
      ring[(written + n) & mask] = input[n] + feedback * filter.next(late);
      output[n] = late;
    }
    this.#line.written = (written + frames) & mask;
  }
}

/** Frames taken at a time. */
const runFrames = 1024;

/** Both sides, each with its own repeats or, in ping-pong, with the other's. */
class TwoEchoes implements Kernel {
  readonly #arrays: EchoArrays;
  readonly #run: (start: number, frames: number) => void;
  #start = 0;

  constructor(settings: Settings<typeof delaySettings>, rateHz: number) {
    const leftFrames = framesOf(settings, 0, rateHz);
    const rightFrames = framesOf(settings, 1, rateHz);
    const ring = ringLength(Math.max(leftFrames, rightFrames));
    const room = openRoom(
      roomBytes(
        ...[ring, ring, runFrames, runFrames, runFrames, runFrames].map((count) => 4 * count),
        8 * echoStates,
        ...echoLoopBytes,
      ),
    );
    const run = () => room.floats(runFrames);
    this.#arrays = {
      left: run(),
      right: run(),
      leftOut: run(),
      rightOut: run(),
      leftRing: room.floats(ring),
      rightRing: room.floats(ring),
      leftFrames,
      rightFrames,
      filter: loopNumbers(lowPassHzOf(settings), loopHighPassHz, rateHz),
      feedback: settings.feedback,
      states: room.doubles(echoStates),
      isCrossed: settings.pingPong,
    };
    this.#run = room.loops.echoes(this.#arrays);
  }

  process(inputs: Block, [leftOutput, rightOutput]: Block, frames: number): void {
    const { left, right, leftOut, rightOut } = this.#arrays;
    for (let from = 0; from < frames; from += runFrames) {
      const run = Math.min(runFrames, frames - from);
      left.set(inputs[0].subarray(from, from + run));
      right.set(inputs[inputs.length - 1].subarray(from, from + run));
      this.#run(this.#start, run);
      leftOutput.set(leftOut.subarray(0, run), from);
      rightOutput.set(rightOut.subarray(0, run), from);
      this.#start = (this.#start + run) | 0;
    }
  }
}

const lowPassHzOf = ({ toneHz }: Settings<typeof delaySettings>): number =>
  toneHz < delaySettings.toneHz.max ? toneHz : Number.POSITIVE_INFINITY;

/**
 * What leaves one side enters the other; the sound, or the mean of both sides, enters on the left. So the left line hears
 * itself after both delays and both sides' filters, and the right line is the left one after its own.
 */
function pingPong(pedal: FedPedal<typeof delaySettings>): readonly StandardNode[] {
  const { context, fed, settings } = pedal;
  const { sampleRate: rateHz } = context;
  const [left, right] = [framesOf(settings, 0, rateHz), framesOf(settings, 1, rateHz)];
  const mean = fed.map((input) => amplified(context, input, 1 / fed.length));
  const leftOut = delayed(context, repeated(pedal, sum(context, mean), left + right, 2), left);
  return [leftOut, delayed(context, fedBack(context, leftOut, settings), right)];
}

/** A line that hears itself again every so many frames, each time so often through the filters; unlooped without feedback. */
function repeated(
  { context, settings, loopLateFrames }: FedPedal<typeof delaySettings>,
  input: StandardNode,
  frames: number,
  times: 1 | 2,
): StandardNode {
  if (settings.feedback === 0) return input;
  const once = (sound: StandardNode) => fedBack(context, sound, settings);
  return looped(context, input, { frames, loopLateFrames }, (late) =>
    times === 1 ? once(late) : once(once(late)),
  );
}

/** The filters of a lap, and the feedback's gain. */
function fedBack(
  context: StandardContext,
  sound: StandardNode,
  { feedback, toneHz }: Settings<typeof delaySettings>,
): StandardNode {
  const { sampleRate: rateHz } = context;
  const pole = Math.exp((-2 * Math.PI * loopHighPassHz) / rateHz);
  const gain = (1 + pole) / 2;
  const high = through(sound, context.createIIRFilter([gain, -gain], [1, -pole]));
  if (toneHz === delaySettings.toneHz.max) return amplified(context, high, feedback);
  const share = 1 - Math.exp((-2 * Math.PI * toneHz) / rateHz);
  const low = through(high, context.createIIRFilter([share], [1, share - 1]));
  return amplified(context, low, feedback);
}

function through(input: StandardNode, node: StandardNode): StandardNode {
  input.connect(node);
  return node;
}

/** Whole frames of one side's delay, at least 1. */
function framesOf(
  { delayMs, rightDelayRatio }: Settings<typeof delaySettings>,
  side: 0 | 1,
  rateHz: number,
): number {
  return Math.max(1, Math.round(msToFrames(delayMs * (side === 1 ? rightDelayRatio : 1), rateHz)));
}
