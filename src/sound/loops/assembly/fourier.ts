/** Complex numbers, interleaved: one fills a vector of two doubles. */
const complexBytes: usize = 16;

/** b * w, with the products and the order of them of `fft.js`: (br wr - bi wi, br wi + bi wr). */
function times(b: v128, w: v128): v128 {
  const br = v128.shuffle<f64>(b, b, 0, 0);
  const bi = v128.shuffle<f64>(b, b, 1, 1);
  const turned = v128.xor(v128.shuffle<f64>(w, w, 1, 0), i64x2(i64.MIN_VALUE, 0));
  return f64x2.add(f64x2.mul(br, w), f64x2.mul(bi, turned));
}

/** -i x. */
function turnedBack(x: v128): v128 {
  return v128.xor(v128.shuffle<f64>(x, x, 1, 0), i64x2(0, i64.MIN_VALUE));
}

/** Numbers of a part that stays in the nearest cache from its first stage to its last. */
const partNumbers: usize = 1024;

/**
 * Forward transform of `size` complex numbers, a power of two from 2 on: radix 4, after a first step of 4 (2 for odd powers)
 * that puts them in order. All stages that stay within a part are done part by part.
 *
 * @param order     places in `input`, in doubles, of the first number of each first step
 * @param twiddles  stage by stage three a butterfly: w, w^2, w^3
 */
export function fourier(output: usize, input: usize, size: u32, order: usize, twiddles: usize): void {
  const isEven = (ctz(size) & 1) === 0;
  const firstBytes: usize = isEven ? 64 : 32;
  const whole = <usize>size * complexBytes;
  const step = isEven ? whole / 4 : whole / 2;
  let part = firstBytes;
  while (part * 4 <= min(whole, partNumbers * complexBytes)) part *= 4;
  let last: usize = 0;
  for (let start = output; start < output + whole; start += part) {
    if (isEven) firstFours(start, part, input, step, order);
    else firstTwos(start, part, input, step, order);
    order += (part / firstBytes) * 4;
    last = stages(start, part, firstBytes, part, twiddles);
  }
  stages(output, whole, part, whole, last);
}

/**
 * Stages of a part, from those that make groups of four times `quarter` bytes up to `most`.
 * @returns where the twiddles of the next stage are
 */
function stages(output: usize, bytes: usize, quarter: usize, most: usize, twiddles: usize): usize {
  const end = output + bytes;
  for (; quarter * 4 <= most; quarter *= 4) {
    const second = quarter * 2;
    const third = quarter * 3;
    for (let start = output; start < end; start += quarter * 4) {
      let w = twiddles;
      for (let at = start; at < start + quarter; at += complexBytes, w += complexBytes * 3) {
        const a = v128.load(at);
        const b = times(v128.load(at + quarter), v128.load(w));
        const c = times(v128.load(at + second), v128.load(w, 16));
        const d = times(v128.load(at + third), v128.load(w, 32));
        const sum = f64x2.add(a, c);
        const difference = f64x2.sub(a, c);
        const others = f64x2.add(b, d);
        const turned = turnedBack(f64x2.sub(b, d));
        v128.store(at, f64x2.add(sum, others));
        v128.store(at + quarter, f64x2.add(difference, turned));
        v128.store(at + second, f64x2.sub(sum, others));
        v128.store(at + third, f64x2.sub(difference, turned));
      }
    }
    twiddles += quarter * 3;
  }
  return twiddles;
}

function firstFours(output: usize, bytes: usize, input: usize, step: usize, order: usize): void {
  const end = output + bytes;
  for (let at = output; at < end; at += complexBytes * 4, order += 4) {
    const from = input + ((<usize>load<u32>(order)) << 3);
    const a = v128.load(from);
    const b = v128.load(from + step);
    const c = v128.load(from + step * 2);
    const d = v128.load(from + step * 3);
    const sum = f64x2.add(a, c);
    const difference = f64x2.sub(a, c);
    const others = f64x2.add(b, d);
    const turned = turnedBack(f64x2.sub(b, d));
    v128.store(at, f64x2.add(sum, others));
    v128.store(at, f64x2.add(difference, turned), 16);
    v128.store(at, f64x2.sub(sum, others), 32);
    v128.store(at, f64x2.sub(difference, turned), 48);
  }
}

function firstTwos(output: usize, bytes: usize, input: usize, step: usize, order: usize): void {
  const end = output + bytes;
  for (let at = output; at < end; at += complexBytes * 2, order += 4) {
    const from = input + ((<usize>load<u32>(order)) << 3);
    const even = v128.load(from);
    const odd = v128.load(from + step);
    v128.store(at, f64x2.add(even, odd));
    v128.store(at, f64x2.sub(even, odd), 16);
  }
}

/**
 * Bins 0 to `half` of a real signal, from the transform `z` of its even frames plus i times its odd ones.
 * @param cos, sin  of pi k / half
 */
export function unravel(z: usize, half: u32, cos: usize, sin: usize, re: usize, im: usize): void {
  const first = load<f64>(z);
  const second = load<f64>(z, 8);
  const last = (<usize>half) << 3;
  store<f64>(re, first + second);
  store<f64>(im, 0);
  store<f64>(re + last, first - second);
  store<f64>(im + last, 0);
  const conjugate = i64x2(0, i64.MIN_VALUE);
  const halves = f64x2.splat(0.5);
  let at = z + complexBytes;
  let mirrored = z + (<usize>half - 1) * complexBytes;
  for (let k: usize = 8; k < last; k += 8, at += complexBytes, mirrored -= complexBytes) {
    const near = v128.load(at);
    const far = v128.xor(v128.load(mirrored), conjugate);
    const even = f64x2.add(near, far);
    // (oddRe, oddIm), and (oddIm, -oddRe).
    const odd = turnedBack(f64x2.sub(near, far));
    const turned = turnedBack(odd);
    const c = v128.load64_splat(cos + k);
    const s = v128.load64_splat(sin + k);
    const bin = f64x2.mul(halves, f64x2.add(f64x2.add(even, f64x2.mul(c, odd)), f64x2.mul(s, turned)));
    v128.store64_lane(re + k, bin, 0);
    v128.store64_lane(im + k, bin, 1);
  }
}
