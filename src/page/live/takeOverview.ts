/** Slices of the overview. */
const slices = 1200;

/**
 * Peaks of a sound in equal slices over `frames`, 0..1; beyond its own end there is silence.
 * @returns as many values as there are slices
 */
export function overviewOf(samples: Float32Array, frames: number): Float32Array {
  const peaks = new Float32Array(slices);
  for (let slice = 0; slice < slices; slice++) {
    const from = Math.floor((slice * frames) / slices);
    const to = Math.min(samples.length, Math.floor(((slice + 1) * frames) / slices));
    let peak = 0;
    for (let n = from; n < to; n++) peak = Math.max(peak, Math.abs(samples[n]));
    peaks[slice] = peak;
  }
  return peaks;
}
