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

/**
 * The cubic through four values, read between the middle two, in the order of `cubicBetween` of `cubic.ts`; for each
 * lane.
 */
export function cubic(before: v128, from: v128, to: v128, after: v128, place: v128): v128 {
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

/**
 * Reads two rings of floats between frames. The first four floats of a ring stand behind its end again.
 * @param near  the frame before the place, in the ring, for each lane; @param share  of the way back to the one before
 */
export function twoCubic(ring: usize, near: i32, other: usize, otherNear: i32, mask: i32, share: v128): v128 {
  const one = v128.load(ring + ((<usize>((near - 2) & mask)) << 2));
  const two = v128.load(other + ((<usize>((otherNear - 2) & mask)) << 2));
  const low = v128.shuffle<f32>(one, two, 0, 4, 1, 5);
  const high = v128.shuffle<f32>(one, two, 2, 6, 3, 7);
  return cubic(
    v128.promote_low<f32>(v128.shuffle<f64>(high, high, 1, 0)),
    v128.promote_low<f32>(high),
    v128.promote_low<f32>(v128.shuffle<f64>(low, low, 1, 0)),
    v128.promote_low<f32>(low),
    share,
  );
}
