import type { Settings, SettingTable } from "../../sound/dsp/kernel.js";
import { msToFrames } from "../../sound/dsp/units.js";
import { looped, shortestLoopFrames } from "../../sound/standard/loop.js";
import { swungDelay } from "../../sound/standard/nearness.js";
import { amplified, convolved, delayed, sum } from "../../sound/standard/nodes.js";
import { always, type FedPedal, perSide, type StandardModel } from "../../sound/standard/standardModel.js";
import { swing } from "../../sound/standard/swing.js";
import type { StandardNode } from "../../sound/standard/webAudio.js";
import { shortestDelayMs, sidePhaseDegrees } from "./modulation.js";

/** What a swung pedal must have, whatever else. */
type SwungSettings = Parameters<typeof sidePhaseDegrees>[0] & { readonly lfoHz: number };

/** The twin of `swungDelayKernel`: a swept delay a side, the right one's swing behind the left's by the spread. */
export const standardSwing = <T extends SettingTable>(
  optionsOf: (settings: Settings<T>) => Omit<SweptDelay, "phaseDegrees"> & SwungSettings,
): StandardModel<T> => ({
  whyNot: always,
  nearness: (settings, rateHz) => {
    const { delayMs, depthMs } = optionsOf(settings);
    return swungDelay(delayMs + depthMs, rateHz);
  },
  wet: (pedal) => {
    const options = optionsOf(pedal.settings);
    return perSide(pedal, (input, side) =>
      sweptDelay(pedal, input, { ...options, phaseDegrees: sidePhaseDegrees(options, side) }),
    );
  },
});

type Surroundings = Pick<FedPedal, "context" | "loopLateFrames" | "frames">;

interface SweptDelay {
  readonly delayMs: number;
  readonly depthMs: number;
  readonly lfoHz: number;
  readonly phaseDegrees: number;
  readonly voices: number;
  readonly feedback: number;
  readonly fixedTap: number;
}

/** The formula of `ModulatedDelay`, in nodes: v = x - feedback v(n - i), y = voices of v(n - D) + fixedTap v(n - i). */
function sweptDelay(pedal: Surroundings, input: StandardNode, options: SweptDelay): StandardNode {
  const { context, frames } = pedal;
  const { delayMs, depthMs, lfoHz, phaseDegrees, voices, feedback, fixedTap } = options;
  const rateHz = context.sampleRate;
  const centreMs = Math.max(delayMs, shortestDelayMs);
  const exact = msToFrames(centreMs, rateHz);
  const centre = feedback === 0 ? exact : Math.max(1, Math.round(exact));
  // The swing stops at the shortest delay, and one frame short of none.
  const swingFrames = Math.min(msToFrames(Math.min(depthMs, centreMs - shortestDelayMs), rateHz), centre - 1);
  const line = feedback === 0 ? input : comb(pedal, input, -feedback, centre);
  const voice = (n: number): StandardNode => {
    const node = context.createDelay((centre + swingFrames + 1) / rateHz);
    node.delayTime.value = centre / rateHz;
    const lfo = swing(context, { lfoHz, phaseDegrees: phaseDegrees + (360 * n) / voices, frames });
    amplified(context, lfo, swingFrames / rateHz).connect(node.delayTime);
    line.connect(node);
    return amplified(context, node, 1 / Math.sqrt(voices));
  };
  const still = fixedTap === 0 ? [] : [amplified(context, delayed(context, line, centre), fixedTap)];
  return sum(context, [...Array.from({ length: voices }, (_, n) => voice(n)), ...still]);
}

/**
 * v(n) = x(n) + gain v(n - frames). A loop of nodes where it is long enough for one; a shorter one is its own impulse
 * response, gain^k at k * frames, until that is 160 dB down.
 * Source: J. O. Smith, Physical Audio Signal Processing, "Feedback comb filters".
 */
function comb(
  { context, loopLateFrames }: Surroundings,
  input: StandardNode,
  gain: number,
  frames: number,
): StandardNode {
  if (frames >= shortestLoopFrames(loopLateFrames)) {
    return looped(context, input, { frames, loopLateFrames }, (late) => amplified(context, late, gain));
  }
  const laps = Math.ceil(Math.log(1e-8) / Math.log(Math.abs(gain)));
  const taps = new Float32Array(laps * frames + 1);
  for (let k = 0; k <= laps; k++) taps[k * frames] = gain ** k;
  return convolved(context, input, taps);
}
