/**
 * Takes apart the transform Z of x + iy, x and y real: 2 X(k) = Z(k) + Z*(-k), 2i Y(k) = Z(k) - Z*(-k).
 *
 * @param z     interleaved, of `size` frames
 * @param bins  how many are wanted of each, from bin 0 on
 * @param xGain, yGain  what X and Y are multiplied with: 1/2 gives them as they are
 */
export function twoSpectra(
  z: Float64Array,
  size: number,
  bins: number,
  [xGain, yGain]: readonly [number, number],
  [x, y]: readonly [Float64Array, Float64Array],
): void {
  for (let k = 0; k < bins; k++) {
    const at = 2 * k;
    const mirror = k === 0 ? 0 : 2 * (size - k);
    x[at] = xGain * (z[at] + z[mirror]);
    x[at + 1] = xGain * (z[at + 1] - z[mirror + 1]);
    y[at] = yGain * (z[at + 1] + z[mirror + 1]);
    y[at + 1] = yGain * (z[mirror] - z[at]);
  }
}
