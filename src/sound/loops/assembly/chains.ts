/** In place, eight sections of one chain; states: the last input, then the last output of each. */
function eight(states: usize, a: f64, signal: usize, frames: u32): void {
  let y0 = load<f64>(states);
  let y1 = load<f64>(states, 8);
  let y2 = load<f64>(states, 16);
  let y3 = load<f64>(states, 24);
  let y4 = load<f64>(states, 32);
  let y5 = load<f64>(states, 40);
  let y6 = load<f64>(states, 48);
  let y7 = load<f64>(states, 56);
  let y8 = load<f64>(states, 64);
  for (const end = signal + ((<usize>frames) << 3); signal < end; signal += 8) {
    const x = load<f64>(signal);
    const next1 = a * (x - y1) + y0;
    const next2 = a * (next1 - y2) + y1;
    const next3 = a * (next2 - y3) + y2;
    const next4 = a * (next3 - y4) + y3;
    const next5 = a * (next4 - y5) + y4;
    const next6 = a * (next5 - y6) + y5;
    const next7 = a * (next6 - y7) + y6;
    const next8 = a * (next7 - y8) + y7;
    y0 = x;
    y1 = next1;
    y2 = next2;
    y3 = next3;
    y4 = next4;
    y5 = next5;
    y6 = next6;
    y7 = next7;
    y8 = next8;
    store<f64>(signal, next8);
  }
  store<f64>(states, y0);
  store<f64>(states, y1, 8);
  store<f64>(states, y2, 16);
  store<f64>(states, y3, 24);
  store<f64>(states, y4, 32);
  store<f64>(states, y5, 40);
  store<f64>(states, y6, 48);
  store<f64>(states, y7, 56);
  store<f64>(states, y8, 64);
}

/** Eight sections of two chains at once, one a lane. */
function twiceEight(states: usize, others: usize, a: f64, signal: usize, other: usize, frames: u32): void {
  const share = f64x2.splat(a);
  let y0 = f64x2(load<f64>(states), load<f64>(others));
  let y1 = f64x2(load<f64>(states, 8), load<f64>(others, 8));
  let y2 = f64x2(load<f64>(states, 16), load<f64>(others, 16));
  let y3 = f64x2(load<f64>(states, 24), load<f64>(others, 24));
  let y4 = f64x2(load<f64>(states, 32), load<f64>(others, 32));
  let y5 = f64x2(load<f64>(states, 40), load<f64>(others, 40));
  let y6 = f64x2(load<f64>(states, 48), load<f64>(others, 48));
  let y7 = f64x2(load<f64>(states, 56), load<f64>(others, 56));
  let y8 = f64x2(load<f64>(states, 64), load<f64>(others, 64));
  for (const end = signal + ((<usize>frames) << 3); signal < end; signal += 8, other += 8) {
    const x = v128.load64_lane(other, v128.load64_zero(signal), 1);
    const next1 = f64x2.add(f64x2.mul(share, f64x2.sub(x, y1)), y0);
    const next2 = f64x2.add(f64x2.mul(share, f64x2.sub(next1, y2)), y1);
    const next3 = f64x2.add(f64x2.mul(share, f64x2.sub(next2, y3)), y2);
    const next4 = f64x2.add(f64x2.mul(share, f64x2.sub(next3, y4)), y3);
    const next5 = f64x2.add(f64x2.mul(share, f64x2.sub(next4, y5)), y4);
    const next6 = f64x2.add(f64x2.mul(share, f64x2.sub(next5, y6)), y5);
    const next7 = f64x2.add(f64x2.mul(share, f64x2.sub(next6, y7)), y6);
    const next8 = f64x2.add(f64x2.mul(share, f64x2.sub(next7, y8)), y7);
    y0 = x;
    y1 = next1;
    y2 = next2;
    y3 = next3;
    y4 = next4;
    y5 = next5;
    y6 = next6;
    y7 = next7;
    y8 = next8;
    v128.store64_lane(signal, next8, 0);
    v128.store64_lane(other, next8, 1);
  }
  keep(states, others, y0);
  keep(states + 8, others + 8, y1);
  keep(states + 16, others + 16, y2);
  keep(states + 24, others + 24, y3);
  keep(states + 32, others + 32, y4);
  keep(states + 40, others + 40, y5);
  keep(states + 48, others + 48, y6);
  keep(states + 56, others + 56, y7);
  keep(states + 64, others + 64, y8);
}

function keep(states: usize, others: usize, value: v128): void {
  v128.store64_lane(states, value, 0);
  v128.store64_lane(others, value, 1);
}

/** In place, four sections of one chain. */
function four(states: usize, a: f64, signal: usize, frames: u32): void {
  let y0 = load<f64>(states);
  let y1 = load<f64>(states, 8);
  let y2 = load<f64>(states, 16);
  let y3 = load<f64>(states, 24);
  let y4 = load<f64>(states, 32);
  for (const end = signal + ((<usize>frames) << 3); signal < end; signal += 8) {
    const x = load<f64>(signal);
    const next1 = a * (x - y1) + y0;
    const next2 = a * (next1 - y2) + y1;
    const next3 = a * (next2 - y3) + y2;
    const next4 = a * (next3 - y4) + y3;
    y0 = x;
    y1 = next1;
    y2 = next2;
    y3 = next3;
    y4 = next4;
    store<f64>(signal, next4);
  }
  store<f64>(states, y0);
  store<f64>(states, y1, 8);
  store<f64>(states, y2, 16);
  store<f64>(states, y3, 24);
  store<f64>(states, y4, 32);
}

/** Bytes of eight sections' states. */
const stride: usize = 72;

/** @param sections  a multiple of four */
export function disperse(states: usize, sections: u32, a: f64, signal: usize, frames: u32): void {
  for (; sections >= 8; sections -= 8, states += stride) eight(states, a, signal, frames);
  if (sections > 0) four(states, a, signal, frames);
}

/** Those eights that both have run together, what one has more by itself. */
export function disperseTwo(
  states: usize,
  sections: u32,
  signal: usize,
  others: usize,
  otherSections: u32,
  other: usize,
  a: f64,
  frames: u32,
): void {
  for (; min(sections, otherSections) >= 8; states += stride, others += stride) {
    twiceEight(states, others, a, signal, other, frames);
    sections -= 8;
    otherSections -= 8;
  }
  disperse(states, sections, a, signal, frames);
  disperse(others, otherSections, a, other, frames);
}
