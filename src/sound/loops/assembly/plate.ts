import { cubic, floatsOf, fourAt, share, twoFloats, twoUnlessSilent, wholes } from "./steps";

/** The rings' places and masks, a line each, left then right; see `plate.ts` in the folder above for the order. */
function place(places: usize, n: usize): usize {
  return <usize>load<u32>(places + (n << 2));
}
function count(places: usize, n: usize): i32 {
  return <i32>load<u32>(places + (n << 2));
}

/** Writes a float to a place of the ring, and behind the ring's end where it is one of its first four. */
function put(ring: usize, mask: i32, now: i32, x: v128, lane: u8): void {
  const at = now & mask;
  const value = <f32>(lane === 0 ? f64x2.extract_lane(x, 0) : f64x2.extract_lane(x, 1));
  store<f32>(ring + ((<usize>at) << 2), value);
  if (at < 4) store<f32>(ring + ((<usize>(at + mask + 1)) << 2), value);
}

/** Both halves of the tank, one a lane. */
export function plateTank(
  places: usize,
  numbers: usize,
  leftSignal: usize,
  rightSignal: usize,
  leftSwing: usize,
  rightSwing: usize,
  start: i32,
  frames: i32,
): void {
  const swinging = place(places, 0);
  const swingingRight = place(places, 1);
  const first = place(places, 2);
  const firstRight = place(places, 3);
  const second = place(places, 4);
  const secondRight = place(places, 5);
  const last = place(places, 6);
  const lastRight = place(places, 7);
  const mask = count(places, 8);
  const firstFrames = count(places, 9);
  const firstFramesRight = count(places, 10);
  const secondFrames = count(places, 11);
  const secondFramesRight = count(places, 12);
  const lastFrames = count(places, 13);
  const lastFramesRight = count(places, 14);
  const g1 = v128.load(numbers);
  const g2 = v128.load(numbers, 16);
  const pole = v128.load(numbers, 32);
  const swingingFrames = v128.load(numbers, 48);
  const swingingGain = v128.load(numbers, 64);
  const firstGain = v128.load(numbers, 80);
  const secondGain = v128.load(numbers, 96);
  /** Of the other half's end. */
  const endGain = v128.load(numbers, 112);
  const excursion = v128.load(numbers, 128);
  let damped = v128.load(numbers, 144);
  for (let n: i32 = 0; n < frames; n++) {
    const now = start + n;
    const at = (<usize>n) << 3;
    const end = floatsOf(
      lastRight + ((<usize>((now - lastFramesRight) & mask)) << 2),
      last + ((<usize>((now - lastFrames) & mask)) << 2),
    );
    const fed = v128.load64_lane(rightSignal + at, v128.load64_zero(leftSignal + at), 1);
    const signal = f64x2.add(fed, f64x2.mul(endGain, end));
    const swing = v128.load64_lane(rightSwing + at, v128.load64_zero(leftSwing + at), 1);
    const delay = f64x2.add(swingingFrames, f64x2.mul(excursion, swing));
    const whole = wholes(delay);
    const one = v128.load(fourAt(swinging, now, i32x4.extract_lane(whole, 0), mask));
    const two = v128.load(fourAt(swingingRight, now, i32x4.extract_lane(whole, 1), mask));
    const late = v128.shuffle<f32>(one, two, 0, 4, 1, 5);
    const early = v128.shuffle<f32>(one, two, 2, 6, 3, 7);
    let delayed = f64x2.mul(swingingGain, cubic(late, early, share(delay, whole)));
    let v = twoUnlessSilent(f64x2.add(signal, f64x2.mul(g1, delayed)));
    put(swinging, mask, now, v, 0);
    put(swingingRight, mask, now, v, 1);
    const onward = f64x2.sub(delayed, f64x2.mul(g1, v));
    put(first, mask, now, onward, 0);
    put(firstRight, mask, now, onward, 1);

    const through = floatsOf(
      first + ((<usize>((now - firstFrames) & mask)) << 2),
      firstRight + ((<usize>((now - firstFramesRight) & mask)) << 2),
    );
    damped = twoUnlessSilent(f64x2.add(f64x2.mul(firstGain, through), f64x2.mul(pole, damped)));

    const held = floatsOf(
      second + ((<usize>((now - secondFrames) & mask)) << 2),
      secondRight + ((<usize>((now - secondFramesRight) & mask)) << 2),
    );
    delayed = f64x2.mul(secondGain, held);
    v = twoUnlessSilent(f64x2.sub(damped, f64x2.mul(g2, delayed)));
    put(second, mask, now, v, 0);
    put(secondRight, mask, now, v, 1);
    const out = f64x2.add(delayed, f64x2.mul(g2, v));
    put(last, mask, now, out, 0);
    put(lastRight, mask, now, out, 1);
  }
  v128.store(numbers, damped, 144);
}

/**
 * output[n] = sum over taps of gain ring[from + n - frames], n = 0 .. frames - 1 and one more where that is odd.
 * @param taps  places, a ring and a delay each; @param gains  one each
 */
export function ringTaps(
  taps: usize,
  gains: usize,
  taken: u32,
  mask: i32,
  output: usize,
  from: i32,
  frames: i32,
): void {
  for (let n: i32 = 0; n < frames; n += 2) {
    let sum = f64x2.splat(0);
    for (let k: usize = 0; k < taken; k++) {
      const ring = place(taps, 2 * k);
      const at = (from + n - count(taps, 2 * k + 1)) & mask;
      const gain = v128.load64_splat(gains + (k << 3));
      sum = f64x2.add(sum, f64x2.mul(gain, twoFloats(ring + ((<usize>at) << 2))));
    }
    v128.store(output + ((<usize>n) << 3), sum);
  }
}
