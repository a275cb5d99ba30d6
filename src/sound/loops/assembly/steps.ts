/** Below this a value in a feedback path is set to zero: `silent` of `silent.ts`. */
const silent: f64 = 1e-30;

export function unlessSilent(x: f64): f64 {
  return Math.abs(x) < silent ? 0 : x;
}

/** The same for two. */
export function twoUnlessSilent(x: v128): v128 {
  return v128.andnot(x, f64x2.lt(f64x2.abs(x), f64x2.splat(silent)));
}

/** Two floats as doubles. */
export function twoFloats(place: usize): v128 {
  return v128.promote_low<f32>(v128.load64_zero(place));
}

/** One float here and one there, as doubles. */
export function floatsOf(place: usize, other: usize): v128 {
  return v128.promote_low<f32>(v128.load32_lane(other, v128.load32_zero(place), 1));
}

/** Whole frames of two delays, in the two low lanes of integers. */
export function wholes(delay: v128): v128 {
  return v128.trunc_sat_zero<i32>(delay);
}

/** What delays have beyond their whole frames. */
export function share(delay: v128, whole: v128): v128 {
  return f64x2.sub(delay, v128.convert_low<i32>(whole));
}

/** Where in a ring of floats the four stand that a cubic needs which reads `whole` frames or more before frame `now`. */
export function fourAt(ring: usize, now: i32, whole: i32, mask: i32): usize {
  return ring + ((<usize>((now - whole - 2) & mask)) << 2);
}

/**
 * The cubic through four values, read between the middle two, in the order of `cubicBetween`; for each lane. Values come as
 * floats: those of both lanes that are after and to, and those that are from and before.
 * Its body must be small enough to be inlined: a call takes as long as the work.
 */
export function cubic(late: v128, early: v128, place: v128): v128 {
  const after = v128.promote_low<f32>(late);
  const to = v128.promote_low<f32>(v128.shuffle<f64>(late, late, 1, 1));
  const from = v128.promote_low<f32>(early);
  const before = v128.promote_low<f32>(v128.shuffle<f64>(early, early, 1, 1));
  return cubicOf(before, from, to, after, place);
}

/** The same of doubles. */
export function cubicOf(before: v128, from: v128, to: v128, after: v128, place: v128): v128 {
  const half = f64x2.splat(0.5);
  const third = f64x2.add(
    f64x2.mul(f64x2.sub(after, before), f64x2.splat(1.0 / 6.0)),
    f64x2.mul(f64x2.sub(from, to), half),
  );
  const second = f64x2.sub(f64x2.mul(f64x2.add(before, to), half), from);
  const first = f64x2.sub(f64x2.sub(f64x2.sub(to, from), second), third);
  const high = f64x2.add(f64x2.mul(third, place), second);
  return f64x2.add(f64x2.mul(f64x2.add(f64x2.mul(high, place), first), place), from);
}
