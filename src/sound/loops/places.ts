/** Where an array begins in a room's memory, in bytes. */
export type Place = number;

/** Arrays of a room, and where they are; see `Room`. */
export interface RoomArrays {
  readonly doubles: (count: number) => Float64Array<ArrayBuffer>;
  readonly floats: (count: number) => Float32Array<ArrayBuffer>;
  readonly integers: (count: number) => Uint32Array<ArrayBuffer>;
  /** @throws RangeError for an array of another room, in which a loop would write over something else */
  readonly at: (array: Float64Array | Float32Array | Uint32Array) => Place;
}
