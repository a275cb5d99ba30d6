/**
 * The part of the W3C Web Audio API that the cross-check builds with, as plain shapes: a browser's contexts and nodes
 * have them, and so have those of a library in Node. Nothing here is of our making; names and units are the standard's
 * (times in seconds, frequencies in Hz, `gain` of a filter in dB).
 */
export interface StandardParam {
  value: number;
}
export interface StandardNode {
  connect(destination: StandardNode, output?: number, input?: number): unknown;
  connect(destination: StandardParam): unknown;
}
export interface StandardBuffer {
  getChannelData(channel: number): Float32Array;
}
export interface StandardGain extends StandardNode {
  readonly gain: StandardParam;
}
export interface StandardDelay extends StandardNode {
  readonly delayTime: StandardParam;
}
export interface StandardBiquad extends StandardNode {
  type: BiquadType;
  readonly frequency: StandardParam;
  readonly detune: StandardParam;
  readonly Q: StandardParam;
  readonly gain: StandardParam;
}
export type BiquadType =
  | "lowpass"
  | "highpass"
  | "bandpass"
  | "lowshelf"
  | "highshelf"
  | "peaking"
  | "notch"
  | "allpass";
export interface StandardConvolver extends StandardNode {
  buffer: StandardBuffer | null;
  normalize: boolean;
}
export interface StandardShaper extends StandardNode {
  curve: Float32Array | null;
}
export interface StandardSource extends StandardNode {
  buffer: StandardBuffer | null;
  start(): void;
}

export interface StandardContext {
  readonly sampleRate: number;
  readonly destination: StandardNode;
  createBuffer(channels: number, frames: number, rateHz: number): StandardBuffer;
  createBufferSource(): StandardSource;
  createGain(): StandardGain;
  createDelay(maxDelaySeconds: number): StandardDelay;
  createBiquadFilter(): StandardBiquad;
  createIIRFilter(feedforward: number[], feedback: number[]): StandardNode;
  createConvolver(): StandardConvolver;
  createWaveShaper(): StandardShaper;
  createChannelMerger(inputs: number): StandardNode;
}

/** An OfflineAudioContext, as far as it is used. */
export interface StandardOfflineContext extends StandardContext {
  startRendering(): Promise<StandardBuffer>;
}
