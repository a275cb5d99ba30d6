/** Gains agree when they differ by no more than this share of the larger. */
const agreesWithin = 1e-12;

/**
 * A vector that depends on several groups of knobs, each in its steps. Where its entries are products of what each
 * group makes of them, as the gains of a mixer are (level times pan), all of it follows from one group moved at a time:
 *
 *     gain(s1, s2, ...) = gain(0) * product over the groups of gain(only that group at its step) / gain(0)
 *
 * Whether they are is tried at a few places beforehand; where not, each place is worked out by itself.
 */
export class SeparableGains {
  readonly #general: readonly number[];
  readonly #moves: Moves;
  readonly #ratios: Map<number, readonly number[]>[];
  readonly #isSeparable: boolean;

  /** @param trials  places, by the step of each group, where the product is tried */
  constructor(groups: number, moves: Moves, trials: readonly (readonly number[])[]) {
    this.#general = moves.general();
    this.#moves = moves;
    this.#ratios = Array.from({ length: groups }, () => new Map());
    this.#isSeparable =
      groups > 0 &&
      trials.every((steps) => {
        const product = this.#productAt(steps);
        return moves.all(steps).every((gain, n) => agree(gain, product[n]));
      });
  }

  at(steps: readonly number[]): readonly number[] {
    return this.#isSeparable ? this.#productAt(steps) : this.#moves.all(steps);
  }

  #productAt(steps: readonly number[]): number[] {
    const gains = [...this.#general];
    for (let group = 0; group < steps.length; group++) {
      const ratios = this.#ratiosAt(group, steps[group]);
      for (let n = 0; n < gains.length; n++) gains[n] *= ratios[n];
    }
    return gains;
  }

  #ratiosAt(group: number, step: number): readonly number[] {
    const known = this.#ratios[group].get(step);
    if (known) return known;
    const moved = this.#moves.one(group, step);
    const ratios = moved.map((gain, n) => (this.#general[n] === 0 ? 0 : gain / this.#general[n]));
    this.#ratios[group].set(step, ratios);
    return ratios;
  }
}

/** The vector, worked out. */
export interface Moves {
  /** With every group in general position: no entry is 0 that is anything elsewhere. */
  general(): readonly number[];
  /** With one group at a step, the others in general position. */
  one(group: number, step: number): readonly number[];
  /** With every group at its step. */
  all(steps: readonly number[]): readonly number[];
}

const agree = (a: number, b: number): boolean =>
  Math.abs(a - b) <= agreesWithin * Math.max(Math.abs(a), Math.abs(b));
