/**
 * Seeded uniform noise, the same on every run and machine. Different seeds give unrelated noises.
 *
 * Source: xorshift32, Marsaglia, "Xorshift RNGs", Journal of Statistical Software 8(14), 2003, triple 13, 17, 5.
 */
export class Xorshift {
  #state: number;

  /** @param seed  a whole number from 0 */
  constructor(seed: number) {
    // Odd, so never 0, the one state that stays; a few rounds part neighbouring seeds.
    this.#state = Math.imul(0x9e3779b9, 2 * seed + 1);
    for (let n = 0; n < 32; n++) this.next();
  }

  /** The next number, -0.5 to 0.5. */
  next(): number {
    let x = this.#state;
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    this.#state = x;
    return x / 4_294_967_296;
  }
}
