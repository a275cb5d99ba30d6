import { cubicOf, share, wholes } from "./steps";

/** Lines of the network, in groups of four. */
const lines: u32 = 12;
const four: u32 = 4;

/** Four lines of a group as they leave: their filters' states, two a vector. */
function two(place: usize, other: usize): v128 {
  return v128.load64_lane(other, v128.load64_zero(place), 1);
}

/** @param from  where each line of all is read, in bytes, or for line 0 what left it */
function leave(
  group: u32,
  from: usize,
  numbers: usize,
  states: usize,
  mixed: usize,
  run: usize,
  frames: u32,
): void {
  from += group * four * 4;
  numbers += group * four * 16;
  states += group * four * 8;
  mixed += <usize>(group * four) * run;
  let from0 = <usize>load<u32>(from);
  let from1 = <usize>load<u32>(from, 4);
  let from2 = <usize>load<u32>(from, 8);
  let from3 = <usize>load<u32>(from, 12);
  // Gains and poles of lines 0 and 2, and of 1 and 3.
  const gain = v128.load(numbers);
  const pole = v128.load(numbers, 16);
  const otherGain = v128.load(numbers, 32);
  const otherPole = v128.load(numbers, 48);
  const half = f64x2.splat(0.5);
  let y = two(states, states + 16);
  let z = two(states + 8, states + 24);
  for (const end = mixed + ((<usize>frames) << 3); mixed < end; mixed += 8) {
    y = f64x2.add(f64x2.mul(gain, two(from0, from2)), f64x2.mul(pole, y));
    z = f64x2.add(f64x2.mul(otherGain, two(from1, from3)), f64x2.mul(otherPole, z));
    from0 += 8;
    from1 += 8;
    from2 += 8;
    from3 += 8;
    const pairs = f64x2.add(y, z);
    const mean = f64x2.mul(half, f64x2.add(pairs, v128.shuffle<f64>(pairs, pairs, 1, 0)));
    const a = f64x2.sub(y, mean);
    const b = f64x2.sub(z, mean);
    v128.store64_lane(mixed, a, 0);
    v128.store64_lane(mixed + run, b, 0);
    v128.store64_lane(mixed + run * 2, a, 1);
    v128.store64_lane(mixed + run * 3, b, 1);
  }
  v128.store64_lane(states, y, 0);
  v128.store64_lane(states + 8, z, 0);
  v128.store64_lane(states + 16, y, 1);
  v128.store64_lane(states + 24, z, 1);
}

/** Reflects the k-th lines of all groups, adds the input and goes into their lines. */
function enter(
  mixed: usize,
  run: usize,
  fed: usize,
  sums: usize,
  to: usize,
  stride: usize,
  frames: u32,
): void {
  const otherMixed = mixed + <usize>four * run;
  const thirdMixed = otherMixed + <usize>four * run;
  const other = to + <usize>four * stride;
  const third = other + <usize>four * stride;
  const share = f64x2.splat(2.0 / 3.0);
  const end = (<usize>frames) << 3;
  let at: usize = 0;
  for (; at + 16 <= end; at += 16) {
    const a = v128.load(mixed + at);
    const b = v128.load(otherMixed + at);
    const c = v128.load(thirdMixed + at);
    const sum = f64x2.add(f64x2.add(a, b), c);
    const rest = f64x2.sub(v128.load(fed + at), f64x2.mul(share, sum));
    v128.store(sums + at, sum);
    v128.store(to + at, f64x2.add(a, rest));
    v128.store(other + at, f64x2.add(b, rest));
    v128.store(third + at, f64x2.add(c, rest));
  }
  if (at < end) {
    const a = load<f64>(mixed + at);
    const b = load<f64>(otherMixed + at);
    const c = load<f64>(thirdMixed + at);
    const sum = a + b + c;
    const rest = load<f64>(fed + at) - (2.0 / 3.0) * sum;
    store<f64>(sums + at, sum);
    store<f64>(to + at, a + rest);
    store<f64>(other + at, b + rest);
    store<f64>(third + at, c + rest);
  }
}

/** Reads the first ring between frames, two frames at a time; it may write one more. */
function swingLine(
  ring: usize,
  mask: i32,
  delayFrames: f64,
  excursion: f64,
  swing: usize,
  swung: usize,
  start: i32,
  frames: i32,
): void {
  const centre = f64x2.splat(delayFrames);
  const reach = f64x2.splat(excursion);
  for (let n: i32 = 0; n < frames; n += 2, swing += 16, swung += 16) {
    const delay = f64x2.add(centre, f64x2.mul(reach, v128.load(swing)));
    const whole = wholes(delay);
    const near = start + n - i32x4.extract_lane(whole, 0);
    const next = start + n + 1 - i32x4.extract_lane(whole, 1);
    const one = ring + ((<usize>((near - 2) & mask)) << 3);
    const other = ring + ((<usize>((next - 2) & mask)) << 3);
    const value = cubicOf(
      two(one + 24, other + 24),
      two(one + 16, other + 16),
      two(one + 8, other + 8),
      two(one, other),
      share(delay, whole),
    );
    v128.store(swung, value);
  }
}

/**
 * A run of the network of twelve lines.
 * @param delays  of each line, in frames
 */
export function hall(
  memory: usize,
  length: u32,
  stride: u32,
  most: u32,
  delays: usize,
  from: usize,
  numbers: usize,
  states: usize,
  mixed: usize,
  swung: usize,
  sums: usize,
  left: usize,
  right: usize,
  swing: usize,
  excursion: f64,
  at: u32,
  frames: u32,
): void {
  const strideBytes = (<usize>stride) << 3;
  const run = (<usize>most) << 3;
  const mask = length - 1;
  swingLine(memory, mask, <f64>load<u32>(delays), excursion, swing, swung, at, frames);
  store<u32>(from, <u32>swung);
  for (let line: u32 = 1; line < lines; line++) {
    const out = (at - load<u32>(delays + ((<usize>line) << 2))) & mask;
    store<u32>(from + ((<usize>line) << 2), <u32>memory + line * (stride << 3) + (out << 3));
  }
  for (let group: u32 = 0; group < 3; group++) leave(group, from, numbers, states, mixed, run, frames);
  const to = memory + ((<usize>at) << 3);
  for (let k: usize = 0; k < four; k++) {
    const fed = (k & 1) === 0 ? left : right;
    enter(mixed + k * run, run, fed, sums + k * run, to + k * strideBytes, strideBytes, frames);
  }
}
