/** Where an array begins in a room's memory, in bytes. */
export type Place = number;

/** Takes arrays of a room; see `Room`. */
export interface RoomArrays {
  doubles(count: number): Float64Array<ArrayBuffer>;
  floats(count: number): Float32Array<ArrayBuffer>;
  integers(count: number): Uint32Array<ArrayBuffer>;
}
