import { compileLoops, runLoops } from "#loops";
import { assembledLoops, type Loops, plainLoops } from "./loops.js";
import type { Place, RoomArrays } from "./places.js";

/**
 * Memory for the arrays of a kernel, and the loops that run on them. What one call of a loop gets must be of one room.
 * Arrays are zero at first, and are never given back: a room goes when nobody holds anything in it.
 */
export interface Room extends Omit<RoomArrays, "at"> {
  readonly loops: Loops;
}

/** Which of the twins run: SIMD wherever there is WebAssembly with it. */
export type Twin = "simd" | "plain";

/** Room in JavaScript's own memory, with the plain loops. */
const plainRoom: Room = {
  loops: plainLoops,
  doubles: (count) => new Float64Array(count),
  floats: (count) => new Float32Array(count),
  integers: (count) => new Uint32Array(count),
};

const pageBytes = 65_536;
/** What a memory has at least: several kernels share one. It is taken from the machine only as it is written to. */
const usualBytes = 256 * pageBytes;
/** Vectors are read fastest from such places, which are also lines of the cache. */
const alignment = 64;

let module: WebAssembly.Module | null | undefined;
let chosen: Twin = "simd";
let newest: SimdRoom | null = null;

/**
 * A room in which at least `bytes` are left, those of each array rounded up to a multiple of 64. Its loops are those in
 * SIMD, or their plain twins where there is no WebAssembly with SIMD, or no memory for it; both give the same bits.
 */
export function openRoom(bytes: number): Room {
  if (chosen === "plain") return plainRoom;
  if (newest && newest.left >= bytes) return newest;
  module ??= compiled();
  if (module === null) return plainRoom;
  try {
    newest = new SimdRoom(module, Math.max(usualBytes, bytes + pageBytes));
    return newest;
  } catch (error) {
    if (error instanceof RangeError) return plainRoom;
    throw error;
  }
}

/** Which twins rooms that are opened from now on have. @returns those that they had */
export function chooseTwin(twin: Twin): Twin {
  const before = chosen;
  chosen = twin;
  return before;
}

/**
 * What `make` gives for a size, made once for as long as anybody holds it: for tables that take as long as some runs, in
 * things of which a call leaves nothing that the next one reads.
 */
export function sharedBySize<T extends object>(make: (size: number) => T): (size: number) => T {
  const inUse = new Map<string, WeakRef<T>>();
  return (size) => {
    const key = `${chosen} ${size}`;
    const known = inUse.get(key)?.deref();
    if (known) return known;
    const made = make(size);
    inUse.set(key, new WeakRef(made));
    return made;
  };
}

/** Bytes that so many values take in a room. */
export const roomBytes = (...bytes: readonly number[]): number =>
  bytes.reduce((sum, each) => sum + alignment * Math.ceil(each / alignment), 0);

/** Null where the engine has no WebAssembly, or none with SIMD, or lets nothing be compiled. */
function compiled(): WebAssembly.Module | null {
  try {
    return compileLoops();
  } catch {
    return null;
  }
}

/** A memory of fixed size, so that arrays in it stay where they are. */
class SimdRoom implements Room {
  readonly loops: Loops;
  readonly #buffer: ArrayBuffer;
  #next = alignment;

  constructor(code: WebAssembly.Module, bytes: number) {
    const pages = Math.ceil(bytes / pageBytes);
    const memory = new WebAssembly.Memory({ initial: pages, maximum: pages });
    this.#buffer = memory.buffer;
    this.loops = assembledLoops(runLoops(code, memory), { ...this, at: this.#at });
  }

  get left(): number {
    return this.#buffer.byteLength - this.#next;
  }
  readonly doubles = (count: number) => new Float64Array(this.#buffer, this.#take(8 * count), count);
  readonly floats = (count: number) => new Float32Array(this.#buffer, this.#take(4 * count), count);
  readonly integers = (count: number) => new Uint32Array(this.#buffer, this.#take(4 * count), count);

  readonly #at = (array: Float64Array | Float32Array | Uint32Array): Place => {
    if (array.buffer !== this.#buffer) throw new RangeError("a loop was given an array of another room");
    return array.byteOffset;
  };

  #take(bytes: number): number {
    const place = this.#next;
    if (bytes > this.left) throw new RangeError(`${bytes} bytes are more than was asked for the room`);
    this.#next += alignment * Math.ceil(bytes / alignment);
    return place;
  }
}
