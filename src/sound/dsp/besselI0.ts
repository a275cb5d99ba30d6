/** Modified Bessel function of order 0, by its power series: sum ((x/2)^k / k!)^2. */
export function besselI0(x: number): number {
  let sum = 1;
  let term = 1;
  for (let k = 1; term > 1e-17 * sum; k++) {
    term *= (x / (2 * k)) ** 2;
    sum += term;
  }
  return sum;
}
