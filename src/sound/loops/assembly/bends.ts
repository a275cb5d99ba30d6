/**
 * All-passes of both branches of a half-band filter, a lane each, for one frame.
 * @param coefficients  of both branches, section by section; @param states  as many
 */
function branches(x: v128, coefficients: usize, states: usize, bytes: usize): v128 {
  for (let k: usize = 0; k < bytes; k += 16) {
    const c = v128.load(coefficients + k);
    const turned = f64x2.add(f64x2.mul(c, x), v128.load(states + k));
    v128.store(states + k, f64x2.sub(x, f64x2.mul(c, turned)));
    x = turned;
  }
  return x;
}

export function double(
  coefficients: usize,
  states: usize,
  pairs: u32,
  input: usize,
  output: usize,
  frames: u32,
): void {
  const bytes = (<usize>pairs) << 4;
  for (const end = input + ((<usize>frames) << 3); input < end; input += 8, output += 16) {
    v128.store(output, branches(v128.load64_splat(input), coefficients, states, bytes));
  }
}

export function halve(
  coefficients: usize,
  states: usize,
  pairs: u32,
  input: usize,
  output: usize,
  frames: u32,
): void {
  const bytes = (<usize>pairs) << 4;
  for (const end = output + ((<usize>frames) << 3); output < end; output += 8, input += 16) {
    const two = v128.load(input);
    const y = branches(v128.shuffle<f64>(two, two, 1, 0), coefficients, states, bytes);
    store<f64>(output, 0.5 * (f64x2.extract_lane(y, 0) + f64x2.extract_lane(y, 1)));
  }
}

/**
 * e^x for |x| up to 700, in the steps of fdlibm's e_exp.c (Sun Microsystems, 1993; freely distributable), as engines of
 * JavaScript take them: x = k ln 2 + r, e^r = 1 + r + r c / (2 - c) with c = r - r^2 P(r^2).
 */
function exponential(x: v128): v128 {
  const half = v128.or(v128.and(x, f64x2.splat(-0.0)), f64x2.splat(0.5));
  const whole = v128.trunc_sat_zero<i32>(f64x2.add(f64x2.mul(f64x2.splat(Math.LOG2E), x), half));
  const k = v128.convert_low<i32>(whole);
  const high = f64x2.sub(x, f64x2.mul(k, f64x2.splat(0.6931471803691238)));
  const low = f64x2.mul(k, f64x2.splat(1.9082149292705877e-10));
  const r = f64x2.sub(high, low);
  const rr = f64x2.mul(r, r);
  let p = f64x2.add(f64x2.splat(-1.6533902205465252e-6), f64x2.mul(rr, f64x2.splat(4.1381367970572385e-8)));
  p = f64x2.add(f64x2.splat(6.613756321437934e-5), f64x2.mul(rr, p));
  p = f64x2.add(f64x2.splat(-0.0027777777777015593), f64x2.mul(rr, p));
  p = f64x2.add(f64x2.splat(0.16666666666666602), f64x2.mul(rr, p));
  const c = f64x2.sub(r, f64x2.mul(rr, p));
  const quotient = f64x2.div(f64x2.mul(r, c), f64x2.sub(f64x2.splat(2), c));
  const y = f64x2.sub(f64x2.splat(1), f64x2.sub(f64x2.sub(low, quotient), high));
  const power = i64x2.shl(i64x2.add(v128.extend_low<i32>(whole), i64x2.splat(1023)), 52);
  return f64x2.mul(y, power);
}

/** Beyond this tanh is 1 or -1 in doubles. */
const flat: f64 = 40;

/** In place: tanh(drive x + asymmetry) - rest, as 1 - 2 / (e^2(..) + 1) - rest; `count` is even. */
export function bend(values: usize, count: u32, drive: f64, asymmetry: f64, rest: f64): void {
  const gain = f64x2.splat(drive);
  const offset = f64x2.splat(asymmetry);
  const base = f64x2.splat(rest);
  const one = f64x2.splat(1);
  const two = f64x2.splat(2);
  const most = f64x2.splat(flat);
  for (const end = values + ((<usize>count) << 3); values < end; values += 16) {
    const x = f64x2.mul(two, f64x2.add(f64x2.mul(gain, v128.load(values)), offset));
    const held = f64x2.max(f64x2.min(x, most), f64x2.neg(most));
    const tanh = f64x2.sub(one, f64x2.div(two, f64x2.add(exponential(held), one)));
    v128.store(values, f64x2.sub(tanh, base));
  }
}
