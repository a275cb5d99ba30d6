/**
 * Four frames side by side, in two vectors; even and odd taps have a sum each, as in the plain form.
 *
 * @param newest  where the newest value of the first frame stands; behind it those of the frames that follow
 * @param count   even
 * @param output  has room for a multiple of four frames
 */
export function fir(taps: usize, count: u32, newest: usize, output: usize, frames: u32): void {
  const last = taps + ((<usize>count) << 3);
  for (const end = output + ((<usize>frames) << 2); output < end; output += 16, newest += 32) {
    let even = f64x2.splat(0);
    let evenBehind = f64x2.splat(0);
    let odd = f64x2.splat(0);
    let oddBehind = f64x2.splat(0);
    for (let tap = taps, value = newest; tap < last; tap += 16, value -= 16) {
      const first = v128.load64_splat(tap);
      even = f64x2.add(even, f64x2.mul(first, v128.load(value)));
      evenBehind = f64x2.add(evenBehind, f64x2.mul(first, v128.load(value, 16)));
      const second = v128.load64_splat(tap, 8);
      odd = f64x2.add(odd, f64x2.mul(second, v128.load(value - 8)));
      oddBehind = f64x2.add(oddBehind, f64x2.mul(second, v128.load(value, 8)));
    }
    const two = v128.demote_zero<f64>(f64x2.add(even, odd));
    const behind = v128.demote_zero<f64>(f64x2.add(evenBehind, oddBehind));
    v128.store(output, v128.shuffle<f32>(two, behind, 0, 1, 4, 5));
  }
}
