import { floatsOf, twoUnlessSilent } from "./steps";

/**
 * Two delay lines with a filter in each loop, left and right a lane each; see `echoes.ts` in the folder above.
 * @param numbers  gain and pole of the high-pass, share of the low-pass, feedback; @param states  three for both sides
 */
export function echoes(
  left: usize,
  right: usize,
  leftOut: usize,
  rightOut: usize,
  ring: usize,
  otherRing: usize,
  mask: i32,
  delayFrames: i32,
  otherFrames: i32,
  numbers: usize,
  states: usize,
  isCrossed: bool,
  start: i32,
  frames: u32,
): void {
  const gain = v128.load64_splat(numbers);
  const pole = v128.load64_splat(numbers, 8);
  const share = v128.load64_splat(numbers, 16);
  const feedback = v128.load64_splat(numbers, 24);
  let before = v128.load(states);
  let high = v128.load(states, 16);
  let low = v128.load(states, 32);
  for (const end = left + ((<usize>frames) << 2); left < end; start++) {
    const late = floatsOf(
      ring + ((<usize>((start - delayFrames) & mask)) << 2),
      otherRing + ((<usize>((start - otherFrames) & mask)) << 2),
    );
    high = twoUnlessSilent(f64x2.add(f64x2.mul(gain, f64x2.sub(late, before)), f64x2.mul(pole, high)));
    low = twoUnlessSilent(f64x2.add(low, f64x2.mul(share, f64x2.sub(high, low))));
    before = late;
    let entering = floatsOf(left, right);
    let back = low;
    if (isCrossed) {
      const both = f64x2.add(entering, v128.shuffle<f64>(entering, entering, 1, 0));
      entering = v128.and(f64x2.mul(f64x2.splat(0.5), both), i64x2(-1, 0));
      back = v128.shuffle<f64>(low, low, 1, 0);
    }
    const written = v128.demote_zero<f64>(f64x2.add(entering, f64x2.mul(feedback, back)));
    const now = (<usize>(start & mask)) << 2;
    v128.store32_lane(ring + now, written, 0);
    v128.store32_lane(otherRing + now, written, 1);
    const out = v128.demote_zero<f64>(late);
    v128.store32_lane(leftOut, out, 0);
    v128.store32_lane(rightOut, out, 1);
    left += 4;
    right += 4;
    leftOut += 4;
    rightOut += 4;
  }
  v128.store(states, before);
  v128.store(states, high, 16);
  v128.store(states, low, 32);
}
