import { type ChainRun, chainStates } from "../loops/chains.js";
import { type Room, roomBytes } from "../loops/room.js";
import { silent } from "../loops/silent.js";

/** Sections are made up to a multiple of this. */
const atLeast = 4;
/** Small states are set to zero, and all made to scale, on a grid of frames, whatever the blocks. */
const gridFrames = 64;

/**
 * First-order all-passes in series, H(z) = (a + c z^-1) / (1 + a c z^-1): low frequencies pass sooner than high ones, so
 * that a click becomes a chirp. With c = 1 each section delays by (1 - a^2) / (1 + 2 a cos w + a^2) frames: (1 - a) /
 * (1 + a) at 0, (1 + a) / (1 - a) at half the rate. A c below 1 is the loss of one frame.
 * Source: V. Valimaki, J. S. Parker and J. S. Abel, "Parametric spring reverberation effect", J. Audio Eng. Soc. 58(7/8),
 * 2010. Their sections work at the full rate with z^-K for z^-1; running them at 1/K of the rate is the same thing
 * below the transition frequency fs / (2 K).
 *
 * c z^-1 for z^-1 weights a response by c^n. So the loss is taken out of the loop: the input is weighted by c^-n, the
 * sections run without loss, y = a (x - y1) + x1, and the output is weighted by c^n; n begins anew every 64 frames.
 *
 * Several chains side by side, each with a signal of its own, of any lengths but one coefficient and one loss: those of
 * like length are run two at a time.
 */
export class DispersiveChains {
  /** In and out of each chain, in the order in which they were asked for. */
  readonly signals: readonly Float64Array[];
  /** The longest first. */
  readonly #chains: readonly ChainRun[];
  readonly #disperse: (frames: number) => void;
  /** c^-n and c^n, n = 0 .. 63. */
  readonly #up: Float64Array;
  readonly #down: Float64Array;
  /** c^64. */
  readonly #rescale: number;
  #frame = 0;
  /** What the loops work on: the stretch of each signal that is at hand, weighted. */
  readonly #windows: readonly Float64Array[];

  /**
   * @param sections     of each chain, made up to a multiple of four
   * @param gain         c, over 0 and up to 1
   * @param mostFrames   the most that one call of `process` gets
   */
  constructor(
    sections: readonly number[],
    coefficient: number,
    gain: number,
    mostFrames: number,
    room: Room,
  ) {
    this.#up = Float64Array.from({ length: gridFrames }, (_, n) => gain ** -n);
    this.#down = Float64Array.from({ length: gridFrames }, (_, n) => gain ** n);
    this.#rescale = gain ** gridFrames;
    this.signals = sections.map(() => new Float64Array(mostFrames));
    this.#windows = sections.map(() => room.doubles(gridFrames));
    this.#chains = sections
      .map(madeUp)
      .map((made, n) => ({
        sections: made,
        states: room.doubles(chainStates(made)),
        signal: this.#windows[n],
      }))
      .sort((a, b) => b.sections - a.sections);
    this.#disperse = room.loops.disperse(this.#chains, coefficient);
  }

  /** In place, the first `frames` of every signal. */
  process(frames: number): void {
    for (let done = 0, run = 0; done < frames; done += run) {
      const into = this.#frame & (gridFrames - 1);
      if (into === 0) this.#flushSilent();
      run = Math.min(frames - done, gridFrames - into);
      for (let c = 0; c < this.signals.length; c++) this.#weigh(c, done, into, run);
      this.#disperse(run);
      for (let c = 0; c < this.signals.length; c++) this.#giveBack(c, done, into, run);
      this.#frame = (this.#frame + run) | 0;
    }
  }

  #weigh(chain: number, from: number, into: number, frames: number): void {
    const signal = this.signals[chain];
    const window = this.#windows[chain];
    const up = this.#up;
    for (let n = 0; n < frames; n++) window[n] = signal[from + n] * up[into + n];
  }

  #giveBack(chain: number, from: number, into: number, frames: number): void {
    const signal = this.signals[chain];
    const window = this.#windows[chain];
    const down = this.#down;
    for (let n = 0; n < frames; n++) signal[from + n] = window[n] * down[into + n];
  }

  #flushSilent(): void {
    for (const { states } of this.#chains) {
      for (let k = 0; k < states.length; k++) {
        const value = states[k] * this.#rescale;
        states[k] = Math.abs(value) < silent ? 0 : value;
      }
    }
  }
}

const madeUp = (sections: number): number => atLeast * Math.ceil(sections / atLeast);

/** What chains take in a room. */
export const dispersiveBytes = (sections: readonly number[]): number =>
  sections.reduce((sum, each) => sum + roomBytes(8 * gridFrames, 8 * chainStates(madeUp(each))), 0);
