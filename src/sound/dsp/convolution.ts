import { ConvolutionStage } from "./convolutionStage.js";
import { FftMemory, fftHeap } from "./fft.js";
import { FirLine } from "./firLine.js";
import type { Block, Kernel } from "./kernel.js";

/** Taps that are computed one by one, and the grid on which everything else is computed. */
const headFrames = 64;

/** Each stage's partitions; a stage covers the taps from its own length up to the next one's. */
const stageFrames = [64, 512, 4096, 16384];

/** Input below this counts as zero (-400 dB): the products of such numbers would be denormal, thus slow. */
const inaudible = 1e-20;

/**
 * Convolution with finite responses, y_o[n] = sum over inputs i and m of h_oi[m] x_i[n - m], without latency.
 *
 * The first 64 taps are summed directly, in doubles. The taps behind them are cut into partitions of 64, 512, 4096 and 16 384
 * frames, each at least as late as it is long, so that it can be multiplied as spectra once its input is complete.
 * All of that happens on a fixed grid of frames counted from the start: blocks of any size give the same bits.
 * Parts of a response that hold nothing but zeros cost nothing.
 * Single precision: the error is about 1e-7 of the loudest sound within a response's length.
 * Source: W. G. Gardner, "Efficient convolution without input-output delay", J. Audio Eng. Soc. 43(3), 1995.
 */
export class Convolution implements Kernel {
  readonly #memory: FftMemory;
  /** Where the last frames of each input stand; the newest `#longest` to 2 `#longest` of them are there. */
  readonly #histories: readonly number[];
  /** `[output][input]`; null where the first taps are all zero. */
  readonly #heads: readonly (readonly (FirLine | null)[])[];
  readonly #stages: readonly ConvolutionStage[];
  readonly #longest: number;
  #at: number;

  /**
   * @param responses `responses[output][input]`: taps, of any length; an empty array joins nothing
   * @throws Error before `initialiseFft`
   */
  constructor(responses: readonly (readonly Float32Array[])[]) {
    const inputs = responses[0].length;
    const taps = Math.max(...responses.flat().map((response) => response.length));
    const used = stageFrames.filter((frames, s) => (s === 0 ? frames : 4 * frames) < taps);
    this.#longest = used.at(-1) ?? headFrames;
    this.#at = this.#longest;
    this.#memory = new FftMemory(2 * this.#longest * inputs);
    this.#histories = Array.from({ length: inputs }, (_, i) => this.#memory.place + i * 2 * this.#longest);
    this.#heads = responses.map((row) => row.map(headOf));
    this.#stages = used
      .map((frames, s) => new ConvolutionStage(frames, responses, used[s + 1] ?? taps))
      .filter((stage) => !stage.isSilent);
  }

  process(inputs: Block, outputs: Block, frames: number): void {
    for (let o = 0; o < outputs.length; o++) {
      outputs[o].fill(0, 0, frames);
      for (let i = 0; i < inputs.length; i++) this.#heads[o][i]?.process(inputs[i], outputs[o], frames, true);
    }
    const heap = fftHeap();
    for (let done = 0, run = 0; done < frames; done += run) {
      run = Math.min(frames - done, headFrames - (this.#at & (headFrames - 1)));
      this.#take(heap, inputs, done, run);
      for (let o = 0; o < outputs.length; o++) this.#give(heap, o, outputs[o], done, run);
      this.#at += run;
      if ((this.#at & (headFrames - 1)) === 0) this.#advance(heap);
    }
  }

  #take(heap: Float32Array, inputs: Block, from: number, frames: number): void {
    for (let i = 0; i < this.#histories.length; i++) {
      const input = inputs[i];
      const to = this.#histories[i] + this.#at;
      for (let n = 0; n < frames; n++) {
        const x = input[from + n];
        heap[to + n] = Math.abs(x) < inaudible ? 0 : x;
      }
    }
  }

  #give(heap: Float32Array, o: number, output: Float32Array, from: number, frames: number): void {
    for (const stage of this.#stages) {
      const at = stage.resultPlace(o) + (this.#at & (stage.frames - 1));
      for (let n = 0; n < frames; n++) output[from + n] += heap[at + n];
    }
  }

  #advance(heap: Float32Array): void {
    for (const stage of this.#stages) {
      if ((this.#at & (stage.frames - 1)) === 0) stage.advance(heap, this.#histories, this.#at);
    }
    if (this.#at < 2 * this.#longest) return;
    for (const history of this.#histories) {
      heap.copyWithin(history, history + this.#longest, history + 2 * this.#longest);
    }
    this.#at = this.#longest;
  }
}

function headOf(response: Float32Array): FirLine | null {
  const taps = Float64Array.from(response.subarray(0, headFrames));
  return taps.some((tap) => tap !== 0) ? new FirLine(taps) : null;
}
