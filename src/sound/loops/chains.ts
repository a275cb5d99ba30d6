import type { Place, RoomArrays } from "./places.js";

/** First-order all-passes in series, y = a (x - y1) + x1: see `dispersiveChain.ts`. */
export interface ChainRun {
  /** A multiple of four. */
  readonly sections: number;
  /** For each eight sections, and four at the end, the last input, then their last outputs: see `chainStates`. */
  readonly states: Float64Array;
  /** In and out, from its beginning. */
  readonly signal: Float64Array;
}

export interface ChainLoops {
  /** Runs chains of one coefficient, in place, two at a time; no two share anything. */
  disperse(chains: readonly ChainRun[], coefficient: number): (frames: number) => void;
}

export interface AssembledChains {
  disperse(states: Place, sections: number, a: number, signal: Place, frames: number): void;
  disperseTwo(
    states: Place,
    sections: number,
    signal: Place,
    others: Place,
    otherSections: number,
    other: Place,
    a: number,
    frames: number,
  ): void;
}

/** States of eight sections. */
const stride = 9;

/** How many states so many sections have. */
export const chainStates = (sections: number): number => sections + Math.ceil(sections / 8);

export const plainChains: ChainLoops = {
  disperse: (chains, coefficient) => (frames) => {
    for (const chain of chains) disperse(chain, coefficient, frames);
  },
};

function disperse({ sections, states, signal }: ChainRun, a: number, frames: number): void {
  let state = 0;
  for (let left = sections; left >= 8; left -= 8, state += stride) eight(states, state, a, signal, frames);
  if (state < states.length) four(states, state, a, signal, frames);
}

/**
 * Sections that one loop runs. Each waits for itself, about nine cycles from one frame to the next, whatever stands beside
 * it: eight together take hardly longer than four.
 */
function eight(states: Float64Array, state: number, a: number, signal: Float64Array, frames: number): void {
  let y0 = states[state];
  let y1 = states[state + 1];
  let y2 = states[state + 2];
  let y3 = states[state + 3];
  let y4 = states[state + 4];
  let y5 = states[state + 5];
  let y6 = states[state + 6];
  let y7 = states[state + 7];
  let y8 = states[state + 8];
  for (let n = 0; n < frames; n++) {
    const x = signal[n];
    const next1 = a * (x - y1) + y0;
    const next2 = a * (next1 - y2) + y1;
    const next3 = a * (next2 - y3) + y2;
    const next4 = a * (next3 - y4) + y3;
    const next5 = a * (next4 - y5) + y4;
    const next6 = a * (next5 - y6) + y5;
    const next7 = a * (next6 - y7) + y6;
    const next8 = a * (next7 - y8) + y7;
    y0 = x;
    y1 = next1;
    y2 = next2;
    y3 = next3;
    y4 = next4;
    y5 = next5;
    y6 = next6;
    y7 = next7;
    y8 = next8;
    signal[n] = next8;
  }
  states[state] = y0;
  states[state + 1] = y1;
  states[state + 2] = y2;
  states[state + 3] = y3;
  states[state + 4] = y4;
  states[state + 5] = y5;
  states[state + 6] = y6;
  states[state + 7] = y7;
  states[state + 8] = y8;
}

function four(states: Float64Array, state: number, a: number, signal: Float64Array, frames: number): void {
  let y0 = states[state];
  let y1 = states[state + 1];
  let y2 = states[state + 2];
  let y3 = states[state + 3];
  let y4 = states[state + 4];
  for (let n = 0; n < frames; n++) {
    const x = signal[n];
    const next1 = a * (x - y1) + y0;
    const next2 = a * (next1 - y2) + y1;
    const next3 = a * (next2 - y3) + y2;
    const next4 = a * (next3 - y4) + y3;
    y0 = x;
    y1 = next1;
    y2 = next2;
    y3 = next3;
    y4 = next4;
    signal[n] = next4;
  }
  states[state] = y0;
  states[state + 1] = y1;
  states[state + 2] = y2;
  states[state + 3] = y3;
  states[state + 4] = y4;
}

export const assembledChains = (loops: AssembledChains, { at }: RoomArrays): ChainLoops => ({
  disperse(chains, a) {
    const places = chains.map(({ sections, states, signal }) => ({
      sections,
      states: at(states),
      signal: at(signal),
    }));
    return (frames) => {
      let n = 0;
      for (; n + 1 < places.length; n += 2) {
        const [one, two] = [places[n], places[n + 1]];
        loops.disperseTwo(
          one.states,
          one.sections,
          one.signal,
          two.states,
          two.sections,
          two.signal,
          a,
          frames,
        );
      }
      if (n < places.length) {
        const { states, sections, signal } = places[n];
        loops.disperse(states, sections, a, signal, frames);
      }
    };
  },
});
