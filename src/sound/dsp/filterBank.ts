import { type Room, roomBytes } from "../loops/room.js";

/**
 * The newest values of a signal behind those that came before them, in one straight run of memory, oldest first: a
 * filter's loop neither wraps nor copies.
 */
export class Recent {
  /** `length` values of the past; behind them there is room for what comes next. */
  readonly values: Float64Array;
  readonly #length: number;

  /** @param mostNew  the most values that come between two calls of `keep` */
  constructor(length: number, mostNew: number, room: Room) {
    this.#length = length;
    this.values = room.doubles(length + mostNew);
  }

  /** Puts `count` new values of `input`, from number `from` on, behind the past. */
  take(input: Float64Array | Float32Array, from: number, count: number): void {
    const { values } = this;
    for (let n = 0, to = this.#length; n < count; n++, to++) values[to] = input[from + n];
  }

  /** `count` values have come; the last `length` of all become the past. */
  keep(count: number): void {
    this.values.copyWithin(0, count, count + this.#length);
  }
}

/** Filters of one length, one for each phase of a change of rate. */
export class FilterBank {
  /** Taps of each filter: a multiple of four. */
  readonly length: number;
  /** Phase by phase; within a phase from the oldest value to the newest. */
  readonly taps: Float64Array;

  /** @param tap gives the tap for the value that is `age` older than the newest */
  constructor(phases: number, count: number, room: Room, tap: (phase: number, age: number) => number) {
    const length = lengthOf(count);
    this.length = length;
    this.taps = room.doubles(phases * length);
    for (let k = 0; k < this.taps.length; k++) {
      const age = length - 1 - (k % length);
      this.taps[k] = age < count ? tap(Math.floor(k / length), age) : 0;
    }
  }
}

const lengthOf = (count: number): number => 4 * Math.ceil(count / 4);

/** What filters of `count` taps, and the values that they run on, take in a room. */
export const filterBankBytes = (phases: number, count: number, mostNew: number): number =>
  roomBytes(8 * phases * lengthOf(count), 8 * (lengthOf(count) + mostNew));
