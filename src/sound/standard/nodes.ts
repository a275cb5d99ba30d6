import type { BiquadType, StandardContext, StandardGain, StandardNode } from "./webAudio.js";

/** input * gain. */
export function amplified(context: StandardContext, input: StandardNode, gain: number): StandardGain {
  const node = context.createGain();
  node.gain.value = gain;
  input.connect(node);
  return node;
}

/**
 * The sum of any number of signals; of none: silence. They must be different nodes: by the standard, a node that is
 * connected to another a second time is heard once.
 */
export function sum(context: StandardContext, inputs: readonly StandardNode[]): StandardNode {
  const node = context.createGain();
  for (const input of inputs) input.connect(node);
  return node;
}

/** The input, a whole number of frames late. */
export function delayed(context: StandardContext, input: StandardNode, frames: number): StandardNode {
  if (frames === 0) return input;
  const node = context.createDelay((frames + 1) / context.sampleRate);
  node.delayTime.value = frames / context.sampleRate;
  input.connect(node);
  return node;
}

/** The input convolved with these taps, as they are. */
export function convolved(context: StandardContext, input: StandardNode, taps: Float32Array): StandardNode {
  const node = context.createConvolver();
  const buffer = context.createBuffer(1, taps.length, context.sampleRate);
  buffer.getChannelData(0).set(taps);
  // Before the buffer: the standard scales when the buffer is set.
  node.normalize = false;
  node.buffer = buffer;
  input.connect(node);
  return node;
}

export interface BiquadSection {
  readonly type: BiquadType;
  readonly frequencyHz: number;
  /** In the standard's terms: in dB for low- and high-pass, a plain Q for peaking and all-pass; shelves have none. */
  readonly q?: number;
  readonly gainDb?: number;
}

/** Biquads one after the other. Corners are held to 0.49 of the rate, as in `biquadDesign.ts`. */
export function filtered(
  context: StandardContext,
  input: StandardNode,
  sections: readonly BiquadSection[],
): StandardNode {
  return sections.reduce((from, { type, frequencyHz, q, gainDb }) => {
    const node = context.createBiquadFilter();
    node.type = type;
    node.frequency.value = Math.min(frequencyHz, 0.49 * context.sampleRate);
    if (q !== undefined) node.Q.value = q;
    if (gainDb !== undefined) node.gain.value = gainDb;
    from.connect(node);
    return node;
  }, input);
}

/** A sound of one channel that plays from the start on. */
export function played(context: StandardContext, samples: Float32Array): StandardNode {
  const buffer = context.createBuffer(1, samples.length, context.sampleRate);
  buffer.getChannelData(0).set(samples);
  const source = context.createBufferSource();
  source.buffer = buffer;
  source.start();
  return source;
}
