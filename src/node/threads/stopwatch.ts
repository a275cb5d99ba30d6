/** Told what time goes into. */
export interface Timings {
  /** The calling thread goes on to this. */
  readonly at: (stage: string) => void;
  /** Milliseconds of other threads, beside it. */
  readonly beside: (what: string, ms: number) => void;
}

/** Parts time among stages, in milliseconds: every moment belongs to one. */
export class Stopwatch {
  /** In the order in which they began; the one that is on counts up to the last call. */
  readonly stages = new Map<string, number>();
  #stage: string;
  #since: number;

  /** @param since  when the first stage began, by `performance.now()` */
  constructor(stage: string, since = performance.now()) {
    this.#stage = stage;
    this.#since = since;
    this.stages.set(stage, 0);
  }

  /** Goes on to a stage, which may have been before. */
  at(stage: string): void {
    const now = performance.now();
    this.stages.set(this.#stage, (this.stages.get(this.#stage) ?? 0) + now - this.#since);
    if (!this.stages.has(stage)) this.stages.set(stage, 0);
    this.#stage = stage;
    this.#since = now;
  }
}
