import type { Settings } from "../dsp/kernel.js";
import { msToFrames } from "../dsp/units.js";
import { delaySettings, loopHighPassHz } from "../pedals/delay.js";
import { amplified, delayed, shortestLoopFrames, sum } from "./nodes.js";
import { perSide, type StandardModel } from "./standardModel.js";
import type { StandardContext, StandardNode } from "./webAudio.js";

type DelaySettings = Settings<typeof delaySettings>;

/**
 * Delay: DelayNodes in a loop with its two first-order filters. What comes out is read from the loop's input by a
 * DelayNode of its own, as long as the loop's: the same sound, and it holds whatever order an engine computes a loop in.
 */
export const standardDelay: StandardModel<typeof delaySettings> = {
  whyNot(settings, rateHz) {
    const frames = Math.min(framesOf(settings, 0, rateHz), framesOf(settings, 1, rateHz));
    if (settings.feedback === 0 || frames >= shortestLoopFrames) return null;
    return `its loop is ${frames} frames long at ${rateHz} Hz, and loops of standard nodes have at least ${shortestLoopFrames}`;
  },
  wet: (pedal) => {
    const { context, settings, outputs } = pedal;
    if (settings.pingPong && outputs === 2) return pingPong(context, pedal.fed, settings);
    return perSide(pedal, (input, side) => {
      const frames = framesOf(settings, side, context.sampleRate);
      const line = sum(context, [input]);
      lap(context, line, frames, settings)?.connect(line);
      return delayed(context, line, frames);
    });
  },
};

/** What leaves one side enters the other; the sound, or the mean of both sides, enters on the left. */
function pingPong(
  context: StandardContext,
  fed: readonly StandardNode[],
  settings: DelaySettings,
): readonly StandardNode[] {
  const [left, right] = [
    framesOf(settings, 0, context.sampleRate),
    framesOf(settings, 1, context.sampleRate),
  ];
  const leftLine = sum(
    context,
    fed.map((input) => amplified(context, input, 1 / fed.length)),
  );
  const rightLine = sum(context, []);
  lap(context, leftLine, left, settings)?.connect(rightLine);
  lap(context, rightLine, right, settings)?.connect(leftLine);
  return [delayed(context, leftLine, left), delayed(context, rightLine, right)];
}

/** Once through a line and its filters, with the feedback's gain; null where nothing is fed back. */
function lap(
  context: StandardContext,
  line: StandardNode,
  frames: number,
  { feedback, toneHz }: DelaySettings,
): StandardNode | null {
  if (feedback === 0) return null;
  const { sampleRate: rateHz } = context;
  const pole = Math.exp((-2 * Math.PI * loopHighPassHz) / rateHz);
  const gain = (1 + pole) / 2;
  let sound = delayed(context, line, frames);
  sound = through(sound, context.createIIRFilter([gain, -gain], [1, -pole]));
  if (toneHz < delaySettings.toneHz.max) {
    const share = 1 - Math.exp((-2 * Math.PI * toneHz) / rateHz);
    sound = through(sound, context.createIIRFilter([share], [1, share - 1]));
  }
  return amplified(context, sound, feedback);
}

function through(input: StandardNode, node: StandardNode): StandardNode {
  input.connect(node);
  return node;
}

/** Whole frames of one side's delay, at least 1. */
function framesOf({ delayMs, rightDelayRatio }: DelaySettings, side: 0 | 1, rateHz: number): number {
  return Math.max(1, Math.round(msToFrames(delayMs * (side === 1 ? rightDelayRatio : 1), rateHz)));
}
