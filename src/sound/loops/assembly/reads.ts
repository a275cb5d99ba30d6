import { cubic, fourAt, share, wholes } from "./steps";

/** Two frames at a time; it may write one more. */
export function cubicReads(
  ring: usize,
  mask: i32,
  values: usize,
  output: usize,
  start: i32,
  frames: i32,
  centre: f64,
  swing: f64,
): void {
  const middle = f64x2.splat(centre);
  const reach = f64x2.splat(swing);
  for (let n: i32 = 0; n < frames; n += 2, values += 16, output += 8) {
    const delay = f64x2.add(middle, f64x2.mul(reach, v128.load(values)));
    const whole = wholes(delay);
    const one = v128.load(fourAt(ring, start + n, i32x4.extract_lane(whole, 0), mask));
    const two = v128.load(fourAt(ring, start + n + 1, i32x4.extract_lane(whole, 1), mask));
    const late = v128.shuffle<f32>(one, two, 0, 4, 1, 5);
    const early = v128.shuffle<f32>(one, two, 2, 6, 3, 7);
    const value = cubic(late, early, share(delay, whole));
    v128.store64_lane(output, v128.demote_zero<f64>(value), 0);
  }
}

/** values[n] = twice values[n - 4] - values[n - 8] from the ninth on; `count` is even. */
export function recur(values: usize, count: u32, twice: f64): void {
  const gain = f64x2.splat(twice);
  const end = values + ((<usize>count) << 3);
  let at = values + 64;
  let a = v128.load(values);
  let b = v128.load(values, 16);
  let c = v128.load(values, 32);
  let d = v128.load(values, 48);
  for (; at + 32 <= end; at += 32) {
    const e = f64x2.sub(f64x2.mul(gain, c), a);
    const f = f64x2.sub(f64x2.mul(gain, d), b);
    v128.store(at, e);
    v128.store(at, f, 16);
    a = c;
    b = d;
    c = e;
    d = f;
  }
}
