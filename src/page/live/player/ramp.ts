/** The time in which a control that is turned gets there, to 0.7 %: five time constants. */
const glideSeconds = 0.03;

/**
 * Moves a parameter towards a value without a step, from wherever it is at that time: a later move takes over from an
 * earlier one. For what a person turns while the sound goes on.
 */
export function glide(param: AudioParam, value: number, at: number): void {
  param.setTargetAtTime(value, at, glideSeconds / 5);
}

/**
 * A gain that moves in straight lines, one after the other: a line never begins before the last one has ended, so that
 * lines of two gains that begin together always sum to the same.
 */
export class Fader {
  readonly #param: AudioParam;
  #value: number;
  #endsAt = 0;
  constructor(param: AudioParam, value: number) {
    this.#param = param;
    this.#value = value;
    param.value = value;
  }
  get value(): number {
    return this.#value;
  }
  /** When the last line ends, in seconds of the context. */
  get endsAt(): number {
    return this.#endsAt;
  }
  /** A line from here to `value`, from `at` on (or the end of the last line); 0 seconds: a step. Returns its end. */
  to(value: number, at: number, seconds: number): number {
    const begin = Math.max(at, this.#endsAt);
    this.#param.setValueAtTime(seconds > 0 ? this.#value : value, begin);
    if (seconds > 0) this.#param.linearRampToValueAtTime(value, begin + seconds);
    this.#value = value;
    this.#endsAt = begin + seconds;
    return this.#endsAt;
  }
}
