/**
 * Finds sound that a browser lost, by the time that it puts on every piece: behind a loss all later pieces are late by as
 * much. A single one may be late by itself, so that the least late of several counts.
 */
export class LossWatch {
  readonly #rateHz: number;
  #frames = 0;
  /** How late the pieces of this run were at the least; of the run before. */
  #leastLate = Number.POSITIVE_INFINITY;
  #before: number | null = null;
  #pieces = 0;

  constructor(rateHz: number) {
    this.#rateHz = rateHz;
  }

  /**
   * The next piece.
   * @param startSeconds  when it began, by the browser
   * @returns seconds that are found to be lost, 0 for none
   */
  add(frames: number, startSeconds: number): number {
    const late = startSeconds - this.#frames / this.#rateHz;
    this.#frames += frames;
    this.#leastLate = Math.min(this.#leastLate, late);
    this.#pieces++;
    if (this.#pieces < runPieces) return 0;
    const lost = this.#before === null ? 0 : this.#leastLate - this.#before;
    this.#before = this.#leastLate;
    this.#leastLate = Number.POSITIVE_INFINITY;
    this.#pieces = 0;
    return lost > leastSeconds ? lost : 0;
  }
}

/** Pieces of 10 ms as a rule. Two clocks 200 ppm apart drift by 0.05 ms in so many. */
const runPieces = 25;
/** Less is how a clock is read: devices hand over, and lose, buffers of 10 ms as a rule. */
const leastSeconds = 0.008;
