/**
 * Tells when a frame of a stream came in, by the page's clock: pieces may be handed over late, never early, so the one
 * that was the least late says where the stream stands.
 */
export class StreamClock {
  readonly #rateHz: number;
  #frames = 0;
  #startMs = Number.POSITIVE_INFINITY;

  constructor(rateHz: number) {
    this.#rateHz = rateHz;
  }

  /**
   * The next piece.
   * @param arrivedMs  when it was handed over
   * @returns when its last frame came in, ms
   */
  add(frames: number, arrivedMs: number): number {
    this.#frames += frames;
    const lengthMs = (1000 * this.#frames) / this.#rateHz;
    this.#startMs = Math.min(this.#startMs, arrivedMs - lengthMs);
    return this.#startMs + lengthMs;
  }

  /** Frames that never came. */
  skip(frames: number): void {
    this.#frames += frames;
  }
}
