/** Slope of the least-squares line through the points (x, y). */
export function slopeOf(x: ArrayLike<number>, y: ArrayLike<number>): number {
  const n = x.length;
  let sumX = 0;
  let sumY = 0;
  for (let i = 0; i < n; i++) {
    sumX += x[i];
    sumY += y[i];
  }
  let covariance = 0;
  let variance = 0;
  for (let i = 0; i < n; i++) {
    const dx = x[i] - sumX / n;
    covariance += dx * (y[i] - sumY / n);
    variance += dx * dx;
  }
  return covariance / variance;
}
