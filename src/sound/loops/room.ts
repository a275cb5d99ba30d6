import { compileLoops, runLoops } from "#loops";
import { type AssembledLoops, assembledLoops, type Loops, plainLoops } from "./loops.js";
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
let newest: SimdMemory | null = null;

/**
 * A room of `bytes`, those of each array rounded up to a multiple of 64: see `roomBytes`. Its loops are those in SIMD, or
 * their plain twins where there is no WebAssembly with SIMD, or no memory for it; both give the same bits.
 */
export function openRoom(bytes: number): Room {
  if (chosen === "plain") return plainRoom;
  module ??= compiled();
  if (module === null) return plainRoom;
  try {
    if (!newest || newest.left < bytes)
      newest = new SimdMemory(module, Math.max(usualBytes, bytes + alignment));
    return newest.roomOf(bytes);
  } catch (error) {
    // What `WebAssembly.Memory` throws where the machine has none left.
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
 * things of which a call leaves nothing that the next one reads. `isFull` says when another one must be made.
 */
export function sharedBySize<T extends object>(
  make: (size: number) => T,
  isFull: (made: T) => boolean = () => false,
): (size: number) => T {
  const inUse = new Map<string, WeakRef<T>>();
  return (size) => {
    const key = `${chosen} ${size}`;
    const known = inUse.get(key)?.deref();
    if (known && !isFull(known)) return known;
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

/** A memory of fixed size, so that arrays in it stay where they are, handed out room by room. */
class SimdMemory {
  readonly #buffer: ArrayBuffer;
  readonly #code: AssembledLoops;
  #next = alignment;

  constructor(code: WebAssembly.Module, bytes: number) {
    const pages = Math.ceil(bytes / pageBytes);
    const memory = new WebAssembly.Memory({ initial: pages, maximum: pages });
    this.#buffer = memory.buffer;
    this.#code = runLoops(code, memory);
  }

  get left(): number {
    return this.#buffer.byteLength - this.#next;
  }

  roomOf(bytes: number): Room {
    const buffer = this.#buffer;
    let next = this.#next;
    this.#next += bytes;
    const end = this.#next;
    const take = (wanted: number): Place => {
      const place = next;
      next += roomBytes(wanted);
      if (next > end) throw new Error(`a room has ${bytes} bytes and is asked for more`);
      return place;
    };
    const arrays: RoomArrays = {
      doubles: (count) => new Float64Array(buffer, take(8 * count), count),
      floats: (count) => new Float32Array(buffer, take(4 * count), count),
      integers: (count) => new Uint32Array(buffer, take(4 * count), count),
      at: (array) => {
        if (array.buffer !== buffer) throw new RangeError("a loop was given an array of another memory");
        return array.byteOffset;
      },
    };
    return { ...arrays, loops: assembledLoops(this.#code, arrays) };
  }
}
