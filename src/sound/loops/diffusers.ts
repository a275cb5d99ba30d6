import type { Place, RoomArrays } from "./places.js";
import { silent } from "./silent.js";

/** A Schroeder section: see `allPassChain.ts`. */
export interface DiffuserSection {
  readonly coefficient: number;
  /** As long as its delay. */
  readonly ring: Float32Array;
}

export interface DiffuserLoops {
  /** Sections in series, v[n] = x[n] - g v[n - D], y[n] = v[n - D] + g v[n], in place. */
  diffuse(sections: readonly DiffuserSection[], signal: Float64Array): (frames: number) => void;
}

export interface AssembledDiffusers {
  diffuse(sections: Place, coefficients: Place, count: number, signal: Place, frames: number): void;
}

export const plainDiffusers: DiffuserLoops = {
  diffuse(sections, signal) {
    const places = sections.map(() => 0);
    return (frames) => {
      for (const [k, section] of sections.entries()) places[k] = pass(section, places[k], signal, frames);
    };
  },
};

/** @returns where the ring stands then */
function pass(
  { coefficient: g, ring }: DiffuserSection,
  from: number,
  signal: Float64Array,
  frames: number,
): number {
  const length = ring.length;
  let at = from;
  for (let n = 0; n < frames; n++) {
    const delayed = ring[at];
    let v = signal[n] - g * delayed;
    if (Math.abs(v) < silent) v = 0;
    ring[at] = v;
    signal[n] = delayed + g * v;
    if (++at === length) at = 0;
  }
  return at;
}

export const assembledDiffusers = (
  loops: AssembledDiffusers,
  { at, doubles, integers }: RoomArrays,
): DiffuserLoops => ({
  diffuse(sections, signal) {
    const rings = integers(3 * sections.length);
    rings.set(sections.flatMap(({ ring }) => [at(ring), ring.length, 0]));
    const coefficients = doubles(sections.length);
    coefficients.set(sections.map(({ coefficient }) => coefficient));
    const [r, c, s] = [at(rings), at(coefficients), at(signal)];
    return (frames) => loops.diffuse(r, c, sections.length, s, frames);
  },
});

/** What so many sections take in a room besides the arrays that they are given. */
export const diffuserLoopBytes = (sections: number): readonly number[] => [12 * sections, 8 * sections];
