/**
 * output = sum over inputs of gain times input, in doubles, in their order; four frames a step, so it may write three more.
 * @param stride  bytes from one input to the next
 */
export function mix(
  inputs: usize,
  stride: usize,
  gains: usize,
  count: u32,
  output: usize,
  frames: u32,
): void {
  const last = gains + ((<usize>count) << 3);
  for (const end = output + ((<usize>frames) << 2); output < end; output += 16, inputs += 16) {
    let low = f64x2.splat(0);
    let high = f64x2.splat(0);
    for (let gain = gains, input = inputs; gain < last; gain += 8, input += stride) {
      const g = v128.load64_splat(gain);
      const x = v128.load(input);
      low = f64x2.add(low, f64x2.mul(g, v128.promote_low<f32>(x)));
      high = f64x2.add(high, f64x2.mul(g, v128.promote_low<f32>(v128.shuffle<f64>(x, x, 1, 1))));
    }
    const two = v128.demote_zero<f64>(low);
    v128.store(output, v128.shuffle<f32>(two, v128.demote_zero<f64>(high), 0, 1, 4, 5));
  }
}
