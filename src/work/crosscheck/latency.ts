import { lagrangeTaps } from "../../sound/dsp/fractionalDelay.js";
import { msToFrames } from "../../sound/dsp/units.js";
import { convolved, delayed } from "../../sound/standard/nodes.js";
import type { StandardContext, StandardNode } from "../../sound/standard/webAudio.js";

/**
 * A pedal's latency: a DelayNode for whole frames. Between frames a DelayNode would draw straight lines, which dulls the
 * treble, where the engine's `FractionalDelay` is a Lagrange interpolator of order 2 floor(D) + 1, up to 31: a FIR
 * filter, so here it is a ConvolverNode with its taps.
 * Source of the taps: J. O. Smith, Physical Audio Signal Processing, "Lagrange interpolation".
 */
export function late(context: StandardContext, input: StandardNode, latencyMs: number): StandardNode {
  const frames = msToFrames(latencyMs, context.sampleRate);
  const nearest = Math.round(frames);
  if (Math.abs(frames - nearest) < 1e-6) return delayed(context, input, nearest);
  const order = Math.min(31, 2 * Math.floor(frames) + 1);
  const whole = Math.floor(frames) - (order - 1) / 2;
  const taps = Float32Array.from(lagrangeTaps(order, frames - whole));
  return convolved(context, delayed(context, input, whole), taps);
}
