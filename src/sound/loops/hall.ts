import { cubicBetween } from "./cubic.js";
import type { Place, RoomArrays } from "./places.js";

const four = 4;
/** Lines of the network, in groups of four. */
export const hallGroups = 3;
export const hallLines = four * hallGroups;

export interface HallNetworkLine {
  readonly delayFrames: number;
  /** Of the filter on its way out, y[n] = gain x[n] + pole y[n - 1]. */
  readonly gain: number;
  readonly pole: number;
}

/** The network of `hallNetwork.ts`. */
export interface HallArrays {
  readonly lines: readonly HallNetworkLine[];
  /** Swing of the first line, either way, in frames. */
  readonly excursionFrames: number;
  /** Frames of a ring, a power of two, and values from one ring to the next, which stand one behind the other. */
  readonly length: number;
  readonly stride: number;
  /** The most frames of a run. */
  readonly mostFrames: number;
  readonly memory: Float64Array;
  /** A state for each line's filter. */
  readonly states: Float64Array;
  /** What left each line, `mostFrames` for each; and what left the line that swings, with one to spare. */
  readonly mixed: Float64Array;
  readonly swung: Float64Array;
  /** Out: the k-th lines' sum over the groups, k = 0 to 3, `mostFrames` for each. */
  readonly sums: Float64Array;
  readonly left: Float64Array;
  readonly right: Float64Array;
  /** The LFO's values. */
  readonly swing: Float64Array;
}

export interface HallLoops {
  /** Takes `frames` frames, which go into the rings from frame `at` on, in one piece. `lfoAt`: where the swing stands. */
  hall(arrays: HallArrays): (at: number, frames: number, lfoAt: number) => void;
}

export interface AssembledHall {
  hall(
    memory: Place,
    length: number,
    stride: number,
    mostFrames: number,
    delays: Place,
    from: Place,
    numbers: Place,
    states: Place,
    mixed: Place,
    swung: Place,
    sums: Place,
    left: Place,
    right: Place,
    swing: Place,
    excursion: number,
    at: number,
    frames: number,
  ): void;
}

export const plainHall: HallLoops = {
  hall: (arrays) => (at, frames, lfoAt) => {
    swingLine(arrays, at, frames, lfoAt);
    for (let group = 0; group < hallGroups; group++) leave(arrays, group, at, frames);
    for (let k = 0; k < four; k++) enter(arrays, k, at, frames);
  },
};

/** Reads line 0 at a delay that swings. */
function swingLine(
  { lines, excursionFrames, memory, length, swung, swing }: HallArrays,
  start: number,
  frames: number,
  lfoAt: number,
): void {
  const mask = length - 1;
  const { delayFrames } = lines[0];
  for (let n = 0; n < frames; n++) {
    const delay = delayFrames + excursionFrames * swing[lfoAt + n];
    const whole = delay | 0;
    const near = start + n - whole;
    swung[n] = cubicBetween(
      memory[(near + 1) & mask],
      memory[near & mask],
      memory[(near - 1) & mask],
      memory[(near - 2) & mask],
      delay - whole,
    );
  }
}

/** Out of a group's lines, through their absorption and through the group's reflection. */
function leave(arrays: HallArrays, group: number, at: number, frames: number): void {
  const { lines, memory, mostFrames, mixed, states, swung, stride, length } = arrays;
  const first = four * group;
  const { gain: gain0, pole: pole0 } = lines[first];
  const { gain: gain1, pole: pole1 } = lines[first + 1];
  const { gain: gain2, pole: pole2 } = lines[first + 2];
  const { gain: gain3, pole: pole3 } = lines[first + 3];
  const outOf = (line: number) => line * stride + ((at - lines[line].delayFrames) & (length - 1));
  const source0 = group === 0 ? swung : memory;
  const from0 = group === 0 ? 0 : outOf(first);
  const from1 = outOf(first + 1);
  const from2 = outOf(first + 2);
  const from3 = outOf(first + 3);
  const mixed0 = first * mostFrames;
  const mixed1 = mixed0 + mostFrames;
  const mixed2 = mixed1 + mostFrames;
  const mixed3 = mixed2 + mostFrames;
  let y0 = states[first];
  let y1 = states[first + 1];
  let y2 = states[first + 2];
  let y3 = states[first + 3];
  for (let n = 0; n < frames; n++) {
    y0 = gain0 * source0[from0 + n] + pole0 * y0;
    y1 = gain1 * memory[from1 + n] + pole1 * y1;
    y2 = gain2 * memory[from2 + n] + pole2 * y2;
    y3 = gain3 * memory[from3 + n] + pole3 * y3;
    const half = 0.5 * (y0 + y1 + (y2 + y3));
    mixed[mixed0 + n] = y0 - half;
    mixed[mixed1 + n] = y1 - half;
    mixed[mixed2 + n] = y2 - half;
    mixed[mixed3 + n] = y3 - half;
  }
  states[first] = y0;
  states[first + 1] = y1;
  states[first + 2] = y2;
  states[first + 3] = y3;
}

/** Reflects the k-th lines of all groups, adds the input and goes into their lines. */
function enter(arrays: HallArrays, k: number, at: number, frames: number): void {
  const { memory, stride, mixed, mostFrames, sums, left, right } = arrays;
  const fed = (k & 1) === 0 ? left : right;
  const to0 = k * stride + at;
  const to1 = to0 + four * stride;
  const to2 = to1 + four * stride;
  const mixed0 = k * mostFrames;
  const mixed1 = mixed0 + four * mostFrames;
  const mixed2 = mixed1 + four * mostFrames;
  for (let n = 0; n < frames; n++) {
    const a = mixed[mixed0 + n];
    const b = mixed[mixed1 + n];
    const c = mixed[mixed2 + n];
    const sum = a + b + c;
    const rest = fed[n] - (2 / 3) * sum;
    sums[mixed0 + n] = sum;
    memory[to0 + n] = a + rest;
    memory[to1 + n] = b + rest;
    memory[to2 + n] = c + rest;
  }
}

export const assembledHall = (loops: AssembledHall, { at, doubles, integers }: RoomArrays): HallLoops => ({
  hall(arrays) {
    const { lines, excursionFrames, length, stride, mostFrames } = arrays;
    const delays = integers(hallLines);
    delays.set(lines.map(({ delayFrames }) => delayFrames));
    const from = integers(hallLines);
    const numbers = doubles(2 * hallLines);
    for (let first = 0; first < hallLines; first += four) {
      const group = lines.slice(first, first + four);
      const gains = group.map(({ gain }) => gain);
      const poles = group.map(({ pole }) => pole);
      // Lines 0 and 2 are one vector, 1 and 3 the other.
      const pairs = [gains[0], gains[2], poles[0], poles[2], gains[1], gains[3], poles[1], poles[3]];
      numbers.set(pairs, 2 * first);
    }
    const [m, d, f, q] = [at(arrays.memory), at(delays), at(from), at(numbers)];
    const [states, mixed, swung, sums] = [
      at(arrays.states),
      at(arrays.mixed),
      at(arrays.swung),
      at(arrays.sums),
    ];
    const [left, right, swing] = [at(arrays.left), at(arrays.right), at(arrays.swing)];
    return (place, frames, lfoAt) =>
      loops.hall(
        m,
        length,
        stride,
        mostFrames,
        d,
        f,
        q,
        states,
        mixed,
        swung,
        sums,
        left,
        right,
        swing + 8 * lfoAt,
        excursionFrames,
        place,
        frames,
      );
  },
});

/** What `hall` takes in a room besides the arrays that it is given. */
export const hallLoopBytes: readonly number[] = [4 * hallLines, 4 * hallLines, 16 * hallLines];
