/** A text of before or after, and what was done to it or would be done again. */
interface Step<T> {
  readonly what: string;
  readonly state: T;
}

/** States that were, and those that were taken back. Steps of one kind in quick succession are one. */
export class History<T> {
  readonly #past: Step<T>[] = [];
  #future: Step<T>[] = [];
  #state: T;
  #lastAt = Number.NEGATIVE_INFINITY;

  constructor(state: T) {
    this.#state = state;
  }

  get state(): T {
    return this.#state;
  }
  get undoes(): string | null {
    return this.#past.at(-1)?.what ?? null;
  }
  get redoes(): string | null {
    return this.#future.at(-1)?.what ?? null;
  }

  /** @param atMs  when: a step of the same words within `togetherMs` of the last goes with it */
  go(what: string, state: T, atMs: number): void {
    const isOne = what === this.undoes && atMs - this.#lastAt < togetherMs && this.#future.length === 0;
    if (!isOne) this.#past.push({ what, state: this.#state });
    if (this.#past.length > mostSteps) this.#past.shift();
    this.#future = [];
    this.#state = state;
    this.#lastAt = atMs;
  }

  undo(): void {
    this.#move(this.#past, this.#future);
  }
  redo(): void {
    this.#move(this.#future, this.#past);
  }

  #move(from: Step<T>[], to: Step<T>[]): void {
    const step = from.pop();
    if (!step) return;
    to.push({ what: step.what, state: this.#state });
    this.#state = step.state;
    this.#lastAt = Number.NEGATIVE_INFINITY;
  }
}

/** A slider that is drawn gives a change every few milliseconds. */
const togetherMs = 1000;
/** Of a rig file of a few kB: some MB at the most. */
const mostSteps = 500;
