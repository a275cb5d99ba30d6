/** Bessel function of the first kind, order 0: the mean of cos(x sin t) over a circle (Abramowitz and Stegun 9.1.18). */
export const besselJ0 = (x: number): number => circleMean((t) => Math.cos(x * Math.sin(t)));

/** Mean over 0 .. 2 pi by the trapezoidal rule, which converges geometrically for smooth periodic functions. */
export function circleMean(f: (radians: number) => number, points = 4096): number {
  let sum = 0;
  for (let k = 0; k < points; k++) sum += f((2 * Math.PI * k) / points);
  return sum / points;
}

/** sum(L R) / sqrt(sum(L L) sum(R R)) from frame `from` on. */
export function likeness(left: Float32Array, right: Float32Array, from = 0): number {
  let [cross, leftEnergy, rightEnergy] = [0, 0, 0];
  for (let n = from; n < left.length; n++) {
    cross += left[n] * right[n];
    leftEnergy += left[n] ** 2;
    rightEnergy += right[n] ** 2;
  }
  return cross / Math.sqrt(leftEnergy * rightEnergy);
}
