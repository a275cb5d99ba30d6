/**
 * Third-order Lagrange interpolation: the one cubic through four equally spaced values, read between the middle two.
 *
 * @param before value at -1
 * @param from   value at 0
 * @param to     value at 1
 * @param after  value at 2
 * @param place  0 gives `from`, 1 gives `to`
 * Source: h[n] = product over k != n of (D - k)/(n - k), J. O. Smith, Physical Audio Signal Processing, "Lagrange
 * interpolation", with N = 3, gathered by powers of `place`.
 */
export function cubicBetween(before: number, from: number, to: number, after: number, place: number): number {
  const third = (after - before) * sixth + (from - to) * 0.5;
  const second = (before + to) * 0.5 - from;
  const first = to - from - second - third;
  return ((third * place + second) * place + first) * place + from;
}

/** A product, since a division costs several times as much. */
const sixth = 1 / 6;
