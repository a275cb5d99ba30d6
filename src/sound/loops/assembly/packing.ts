/** Four doubles as whole numbers, rounded half up, two and two. */
function rounded(low: v128, high: v128): v128 {
  const half = f64x2.splat(0.5);
  const first = v128.trunc_sat_zero<i32>(f64x2.floor(f64x2.add(low, half)));
  const second = v128.trunc_sat_zero<i32>(f64x2.floor(f64x2.add(high, half)));
  return v128.shuffle<i64>(first, second, 0, 2);
}

/**
 * Samples times a factor as whole numbers of 24 bits, least byte first; two channels interleaved, or one where `right` is 0.
 * It may work on three samples more. @returns 0 where one of them is beyond 24 bits, or no number
 */
export function pack24(left: usize, right: usize, output: usize, frames: u32, factor: f64): u32 {
  const gain = f64x2.splat(factor);
  const most = f64x2.splat(8388607);
  let fits = i64x2.splat(-1);
  const end = left + ((<usize>frames) << 2);
  const step: usize = right === 0 ? 16 : 8;
  for (; left < end; left += step, output += 12) {
    let four = v128.load(left);
    if (right !== 0) {
      four = v128.shuffle<f32>(four, v128.load(right), 0, 4, 1, 5);
      right += step;
    }
    const low = f64x2.mul(v128.promote_low<f32>(four), gain);
    const high = f64x2.mul(v128.promote_low<f32>(v128.shuffle<f64>(four, four, 1, 1)), gain);
    fits = v128.and(fits, v128.and(f64x2.le(f64x2.abs(low), most), f64x2.le(f64x2.abs(high), most)));
    const packed = i8x16.shuffle(
      rounded(low, high),
      fits,
      0,
      1,
      2,
      4,
      5,
      6,
      8,
      9,
      10,
      12,
      13,
      14,
      0,
      0,
      0,
      0,
    );
    v128.store64_lane(output, packed, 0);
    v128.store32_lane(output, packed, 2, 8);
  }
  return i64x2.all_true(fits) ? 1 : 0;
}
