/** output = (left + i right) times window, interleaved; `frames` is even. */
export function windowPair(left: usize, right: usize, window: usize, output: usize, frames: u32): void {
  for (
    const end = left + ((<usize>frames) << 2);
    left < end;
    left += 8, right += 8, window += 16, output += 32
  ) {
    const w = v128.load(window);
    const l = f64x2.mul(v128.promote_low<f32>(v128.load64_zero(left)), w);
    const r = f64x2.mul(v128.promote_low<f32>(v128.load64_zero(right)), w);
    v128.store(output, v128.shuffle<f64>(l, r, 0, 2));
    v128.store(output, v128.shuffle<f64>(l, r, 1, 3), 16);
  }
}

/** output = channel times window; `frames` is even. */
export function windowOne(channel: usize, window: usize, output: usize, frames: u32): void {
  for (
    const end = channel + ((<usize>frames) << 2);
    channel < end;
    channel += 8, window += 16, output += 16
  ) {
    const x = v128.promote_low<f32>(v128.load64_zero(channel));
    v128.store(output, f64x2.mul(x, v128.load(window)));
  }
}

/**
 * Parts Z = L + iR again, 2 L(k) = Z(k) + Z*(-k) and 2i R(k) = Z(k) - Z*(-k): adds four times the energies of bins 0 to
 * size / 2, and of the cross spectrum, to sums.
 */
export function addPairEnergies(
  z: usize,
  size: u32,
  left: usize,
  right: usize,
  crossReal: usize,
  crossImaginary: usize,
): void {
  const conjugate = i64x2(0, i64.MIN_VALUE);
  const bins = (<usize>size / 2 + 1) << 3;
  let mirrored = z;
  for (let k: usize = 0, at = z; k < bins; k += 8, at += 16) {
    const near = v128.load(at);
    const far = v128.xor(v128.load(mirrored), conjugate);
    mirrored = k === 0 ? z + ((<usize>size - 1) << 4) : mirrored - 16;
    const l = f64x2.add(near, far);
    const d = f64x2.sub(near, far);
    // R: the imaginary part of the difference, and minus its real part.
    const r = v128.xor(v128.shuffle<f64>(d, d, 1, 0), conjugate);
    const ll = f64x2.mul(l, l);
    const rr = f64x2.mul(r, r);
    const energies = f64x2.add(v128.shuffle<f64>(ll, rr, 0, 2), v128.shuffle<f64>(ll, rr, 1, 3));
    const sums = v128.load64_lane(right + k, v128.load64_zero(left + k), 1);
    const grown = f64x2.add(sums, energies);
    v128.store64_lane(left + k, grown, 0);
    v128.store64_lane(right + k, grown, 1);
    const same = f64x2.mul(l, r);
    const other = f64x2.mul(v128.shuffle<f64>(l, l, 1, 0), r);
    store<f64>(
      crossReal + k,
      load<f64>(crossReal + k) + (f64x2.extract_lane(same, 0) + f64x2.extract_lane(same, 1)),
    );
    store<f64>(
      crossImaginary + k,
      load<f64>(crossImaginary + k) + (f64x2.extract_lane(other, 0) - f64x2.extract_lane(other, 1)),
    );
  }
}
