import { delayed, played, sum } from "./nodes.js";
import type { StandardContext, StandardNode, StandardOfflineContext } from "./webAudio.js";

/** Makes an OfflineAudioContext. */
export type OpenOffline = (channels: number, frames: number, rateHz: number) => StandardOfflineContext;

/** Frames of a render quantum, and so the shortest delay that a loop may have. Source: W3C Web Audio API, DelayNode. */
const quantumFrames = 128;

/** The shortest loop, in frames, that comes out right by an engine whose loops are so late. */
export const shortestLoopFrames = (loopLateFrames: number): number => quantumFrames + loopLateFrames;

export interface NodeLoop {
  /** Once round, at least `shortestLoopFrames`. */
  readonly frames: number;
  readonly loopLateFrames: number;
}

/**
 * A loop of nodes: line(n) = input(n) + path(line)(n - frames).
 *
 * By the standard a DelayNode in a loop is read before it is written, and a lap is as long as its delays say. Some
 * browsers compute the nodes of a loop one after the other from wherever it is listened to, and a lap is a render quantum
 * longer; `loopLateness` measures it, and the loop is made shorter by that. So it must be listened to at one node alone.
 *
 * @returns that node
 */
export function looped(
  context: StandardContext,
  input: StandardNode,
  { frames, loopLateFrames }: NodeLoop,
  path: (late: StandardNode) => StandardNode,
): StandardNode {
  const line = sum(context, [input]);
  path(delayed(context, line, frames - loopLateFrames)).connect(line);
  return line;
}

/**
 * How many frames longer a lap is by this engine than its delays say: 0 by the standard. Measured: a single 1 is sent
 * round a loop, and its first echo tells.
 * @returns Infinity for an engine without loops
 */
export async function loopLateness(openContext: OpenOffline, rateHz: number): Promise<number> {
  const frames = 4 * quantumFrames;
  const context = openContext(1, 4 * frames, rateHz);
  const source = played(context, Float32Array.of(1));
  looped(context, source, { frames, loopLateFrames: 0 }, (late) => late).connect(context.destination);
  const sound = (await context.startRendering()).getChannelData(0);
  const echo = sound.findIndex((sample, n) => n > 0 && Math.abs(sample) > 0.5);
  return echo < 0 ? Number.POSITIVE_INFINITY : echo - frames;
}
