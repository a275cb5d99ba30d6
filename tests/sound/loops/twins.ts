import { chooseTwin, openRoom, type Room, type Twin } from "../../../src/sound/loops/room.js";

/** A room with the twins asked for. */
export function roomOf(twin: Twin, bytes: number): Room {
  const before = chooseTwin(twin);
  const room = openRoom(bytes);
  chooseTwin(before);
  return room;
}

/** What `run` gives with the plain loops and with those in SIMD. */
export function byBoth<T>(run: () => T): { readonly plain: T; readonly simd: T } {
  const before = chooseTwin("plain");
  try {
    const plain = run();
    chooseTwin("simd");
    return { plain, simd: run() };
  } finally {
    chooseTwin(before);
  }
}

/** Noise from -1 to 1 with stretches of silence and of numbers near the least, seeded. */
export function roughNoise(count: number, seed: number): Float64Array {
  let state = seed >>> 0 || 1;
  const next = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
  return Float64Array.from({ length: count }, (_, n) => {
    const level = Math.floor(n / 97) % 5;
    const x = 2 * next() - 1;
    return level === 3 ? 0 : level === 4 ? x * 1e-31 : x;
  });
}

/** Where two lists of arrays of doubles or floats first differ in their bits; null where they do not. */
export function firstDifference(
  plain: readonly (Float32Array | Float64Array)[],
  simd: readonly (Float32Array | Float64Array)[],
): string | null {
  if (plain.length !== simd.length) return `${plain.length} arrays and ${simd.length}`;
  for (const [place, array] of plain.entries()) {
    const other = simd[place];
    if (array.length !== other.length) return `array ${place}: ${array.length} and ${other.length} values`;
    for (let n = 0; n < array.length; n++) {
      if (!Object.is(array[n], other[n])) return `array ${place}, value ${n}: ${array[n]} and ${other[n]}`;
    }
  }
  return null;
}
