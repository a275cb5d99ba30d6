/**
 * Below this a value in a feedback path counts as zero: -600 dB. Without it a decaying tail ends in denormal numbers,
 * with which processors compute many times slower, and which rounding can keep alive for ever.
 */
export const silent = 1e-30;

/** Sets what has become inaudible to zero: by rounding alone it would stay. To be called now and then, on a grid of frames. */
export function flushSilent(values: Float32Array | Float64Array): void {
  for (let k = 0; k < values.length; k++) if (Math.abs(values[k]) < silent) values[k] = 0;
}
