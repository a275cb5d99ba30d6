/** Gains agree when they differ by no more than this share of the larger. */
const agreesWithin = 1e-12;

/**
 * A vector that depends on several groups of knobs, each in its steps. Where its entries are products of what each
 * group makes of them, as the gains of a mixer are (level times pan), all of it follows from one group moved at a time:
 *
 *     gain(s1, s2, ...) = gain(0) * product over the groups of gain(only that group at its step) / gain(0)
 *
 * Whether they are is tried at the first few places that are asked for; where not, each place is worked out by itself.
 */
export class SeparableGains {
  readonly #general: readonly number[];
  readonly #oneMoved: (group: number, step: number) => readonly number[];
  readonly #direct: (steps: readonly number[]) => readonly number[];
  readonly #ratios: Map<number, readonly number[]>[];
  #triesLeft = placesTried;
  #isSeparable: boolean;

  /**
   * @param general   with every group in general position: no entry is 0 that is anything elsewhere
   * @param oneMoved  with one group at a step, the others in general position
   * @param direct    with every group at its step
   */
  constructor(
    groups: number,
    general: readonly number[],
    oneMoved: (group: number, step: number) => readonly number[],
    direct: (steps: readonly number[]) => readonly number[],
  ) {
    this.#general = general;
    this.#oneMoved = oneMoved;
    this.#direct = direct;
    this.#ratios = Array.from({ length: groups }, () => new Map());
    this.#isSeparable = groups > 0;
  }

  at(steps: readonly number[]): readonly number[] {
    if (!this.#isSeparable) return this.#direct(steps);
    const factors = steps.map((step, group) => this.#ratiosAt(group, step));
    const gains = this.#general.map((gain, n) => factors.reduce((product, own) => product * own[n], gain));
    if (this.#triesLeft === 0) return gains;
    this.#triesLeft--;
    const exact = this.#direct(steps);
    this.#isSeparable = exact.every((gain, n) => agree(gain, gains[n]));
    return exact;
  }

  #ratiosAt(group: number, step: number): readonly number[] {
    const known = this.#ratios[group].get(step);
    if (known) return known;
    const moved = this.#oneMoved(group, step);
    const ratios = moved.map((gain, n) => (this.#general[n] === 0 ? 0 : gain / this.#general[n]));
    this.#ratios[group].set(step, ratios);
    return ratios;
  }
}

const placesTried = 8;

const agree = (a: number, b: number): boolean =>
  Math.abs(a - b) <= agreesWithin * Math.max(Math.abs(a), Math.abs(b));
