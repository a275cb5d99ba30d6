import { delaySettings, loopHighPassHz } from "../../rig/pedals/delay.js";
import type { Settings } from "../../sound/dsp/kernel.js";
import { msToFrames } from "../../sound/dsp/units.js";
import { looped, shortestLoopFrames } from "./loop.js";
import { amplified, delayed, sum } from "./nodes.js";
import { type FedPedal, perSide, type StandardModel } from "./standardModel.js";
import type { StandardContext, StandardNode } from "./webAudio.js";

/**
 * Delay: a DelayNode in a loop with its two first-order filters. What comes out is read from the loop's input by a
 * DelayNode of its own, as long as the loop's.
 */
export const standardDelay: StandardModel<typeof delaySettings> = {
  whyNot(settings, rateHz, loopLateFrames) {
    const frames = Math.min(framesOf(settings, 0, rateHz), framesOf(settings, 1, rateHz));
    const shortest = shortestLoopFrames(loopLateFrames);
    if (settings.feedback === 0 || frames >= shortest) return null;
    return `its loop is ${frames} frames long at ${rateHz} Hz, and loops of standard nodes have at least ${shortest}`;
  },
  wet: (pedal) => {
    const { settings, outputs, context } = pedal;
    if (settings.pingPong && outputs === 2) return pingPong(pedal);
    return perSide(pedal, (input, side) => {
      const frames = framesOf(settings, side, context.sampleRate);
      return delayed(context, repeated(pedal, input, frames, 1), frames);
    });
  },
};

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
