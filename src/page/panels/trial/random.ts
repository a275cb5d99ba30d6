/** A whole number from 0 to `count` - 1, all equally likely. */
export type Below = (count: number) => number;

/**
 * Random numbers that cannot be foreseen, from the browser's cryptographic source. Draws that would favour the lower
 * numbers are thrown away.
 * @throws RangeError unless `count` is a whole number from 1 to 2^32
 */
export const cryptoBelow: Below = (count) => {
  if (!Number.isInteger(count) || count < 1 || count > 2 ** 32) {
    throw new RangeError(`cryptoBelow: count is ${count}; it must be a whole number from 1 to 2^32`);
  }
  const fair = 2 ** 32 - (2 ** 32 % count);
  const drawn = new Uint32Array(1);
  do crypto.getRandomValues(drawn);
  while (drawn[0] >= fair);
  return drawn[0] % count;
};

/** The same things in random order, all orders equally likely. Source: Fisher and Yates 1938, from memory. */
export function shuffled<T>(things: readonly T[], below: Below): T[] {
  const order = [...things];
  for (let last = order.length - 1; last > 0; last--) {
    const other = below(last + 1);
    [order[last], order[other]] = [order[other], order[last]];
  }
  return order;
}
