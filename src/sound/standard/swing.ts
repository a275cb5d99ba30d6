import type { LfoWave } from "../dsp/lfo.js";
import { played } from "./nodes.js";
import type { StandardContext, StandardNode } from "./webAudio.js";

export interface Swing {
  readonly lfoHz: number;
  /** Phase at the first frame. */
  readonly phaseDegrees: number;
  readonly wave?: LfoWave;
  /** How long it is needed. */
  readonly frames: number;
}

/**
 * A swing from -1 to 1, sin(2 pi lfoHz t + phase), or the triangle that crosses zero and peaks with it,
 * 2/pi asin(sin(..)): the formula frame by frame, in an AudioBufferSourceNode. An OscillatorNode reads a table, in single
 * precision: Firefox's starts a frame late and Chromium's is 90 dB off, which would hide more than it tells.
 */
export function swing(
  context: StandardContext,
  { lfoHz, phaseDegrees, wave = "sine", frames }: Swing,
): StandardNode {
  const values = new Float32Array(frames);
  for (let n = 0; n < frames; n++) {
    const cycles = (lfoHz * n) / context.sampleRate + phaseDegrees / 360;
    const sine = Math.sin(2 * Math.PI * (cycles - Math.floor(cycles)));
    values[n] = wave === "sine" ? sine : (2 / Math.PI) * Math.asin(sine);
  }
  return played(context, values);
}
