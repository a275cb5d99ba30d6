/** Sum of taps times values; `length` is a multiple of four. Four sums side by side, as in the plain form. */
function weighted(taps: usize, values: usize, length: u32): f64 {
  let first = f64x2.splat(0);
  let second = f64x2.splat(0);
  for (const end = taps + ((<usize>length) << 3); taps < end; taps += 32, values += 32) {
    first = f64x2.add(first, f64x2.mul(v128.load(taps), v128.load(values)));
    second = f64x2.add(second, f64x2.mul(v128.load(taps, 16), v128.load(values, 16)));
  }
  return (
    f64x2.extract_lane(first, 0) +
    f64x2.extract_lane(first, 1) +
    (f64x2.extract_lane(second, 0) + f64x2.extract_lane(second, 1))
  );
}

export function rateDown(
  taps: usize,
  length: u32,
  values: usize,
  samples: usize,
  frames: u32,
  place: i32,
  steps: i32,
  parts: i32,
): u32 {
  let made: u32 = 0;
  for (let n: u32 = 1; n <= frames; n++) {
    place += parts;
    while (place >= 0) {
      const sample = weighted(taps + ((<usize>(place * length)) << 3), values + ((<usize>n) << 3), length);
      store<f64>(samples + ((<usize>made) << 3), sample);
      made++;
      place -= steps;
    }
  }
  return made;
}

export function rateUp(
  taps: usize,
  length: u32,
  values: usize,
  samples: usize,
  output: usize,
  frames: u32,
  place: i32,
  steps: i32,
  parts: i32,
): u32 {
  let taken: u32 = 0;
  for (let n: u32 = 0; n < frames; n++) {
    place += parts;
    while (place >= 0) {
      store<f64>(values + ((<usize>(length + taken)) << 3), load<f64>(samples + ((<usize>taken) << 3)));
      taken++;
      place -= steps;
    }
    const bank = taps + ((<usize>((place + steps) * length)) << 3);
    store<f64>(output + ((<usize>n) << 3), weighted(bank, values + ((<usize>taken) << 3), length));
  }
  return taken;
}
