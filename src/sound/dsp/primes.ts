/** For each number the nearest prime that none before it took. @param wanted each at least 2 */
export function primesNear(wanted: readonly number[]): readonly number[] {
  const taken = new Set<number>();
  return wanted.map((number) => {
    const middle = Math.round(number);
    for (let off = 0; ; off++) {
      for (const candidate of [middle + off, middle - off]) {
        if (!isPrime(candidate) || taken.has(candidate)) continue;
        taken.add(candidate);
        return candidate;
      }
    }
  });
}

function isPrime(number: number): boolean {
  if (number < 2) return false;
  for (let divisor = 2; divisor * divisor <= number; divisor++) if (number % divisor === 0) return false;
  return true;
}
