import { FftMemory, fftHeap, RealFft } from "./fft.js";

/** A partition of a response that is not all zeros: taps from `number * frames` on, as a spectrum at `place`. */
interface Partition {
  readonly number: number;
  readonly place: number;
}

/**
 * The taps from `frames` up to `end` of all responses, in partitions of `frames` taps, by overlap-save: the spectra of
 * the last 2 * frames inputs are kept, multiplied with the partitions' spectra, summed and transformed back; the second
 * half is what these taps give to the next `frames` outputs. To be advanced every `frames` frames.
 * Source: A. V. Oppenheim and R. W. Schafer, Discrete-Time Signal Processing, "overlap-save"; T. G. Stockham,
 * "High-speed convolution and correlation", 1966.
 */
export class ConvolutionStage {
  readonly frames: number;
  /** True when all its taps are 0: it then need not be advanced. */
  readonly isSilent: boolean;
  readonly #fft: RealFft;
  readonly #memory: FftMemory;
  readonly #partitions: readonly (readonly (readonly Partition[])[])[];
  readonly #results: readonly number[];
  /** Spectra of the input, `#slots` for each input, used in turn; `#slot` holds the newest. */
  readonly #spectra: readonly number[];
  readonly #slots: number;
  readonly #sum: number;
  #slot = 0;

  /** @param responses `responses[output][input]` */
  constructor(frames: number, responses: readonly (readonly Float32Array[])[], end: number) {
    const size = 2 * frames;
    const numbers = responses.map((row) => row.map((response) => filledPartitions(response, frames, end)));
    const inputs = responses[0].length;
    this.frames = frames;
    this.#slots = Math.max(0, ...numbers.flat(2));
    this.isSilent = this.#slots === 0;
    this.#fft = new RealFft(size);
    const spectraCount = this.#slots * inputs;
    const filterCount = numbers.flat(2).length;
    this.#memory = new FftMemory(size * (1 + responses.length + spectraCount + filterCount));

    let next = this.#memory.place;
    const take = () => {
      next += size;
      return next - size;
    };
    this.#sum = take();
    this.#results = responses.map(take);
    this.#spectra = Array.from({ length: inputs }, () => {
      const first = next;
      next += size * this.#slots;
      return first;
    });
    const heap = fftHeap();
    this.#partitions = responses.map((row, o) =>
      row.map((response, i) =>
        numbers[o][i].map((number) => {
          const place = take();
          heap.fill(0, this.#sum, this.#sum + size);
          heap.set(response.subarray(number * frames, Math.min((number + 1) * frames, end)), this.#sum);
          this.#fft.forward(this.#sum, place);
          return { number, place };
        }),
      ),
    );
  }

  /** Where the next `frames` frames for an output stand in `fftHeap()`. */
  resultPlace(output: number): number {
    return this.#results[output] + this.frames;
  }

  /** @param histories places of the inputs' frames, @param at how many frames stand there (at least 2 * frames) */
  advance(heap: Float32Array, histories: readonly number[], at: number): void {
    const size = 2 * this.frames;
    const fft = this.#fft;
    const slots = this.#slots;
    this.#slot = this.#slot + 1 === slots ? 0 : this.#slot + 1;
    for (let i = 0; i < histories.length; i++) {
      fft.forward(histories[i] + at - size, this.#spectra[i] + this.#slot * size);
    }
    for (let o = 0; o < this.#results.length; o++) {
      heap.fill(0, this.#sum, this.#sum + size);
      for (let i = 0; i < histories.length; i++) {
        const spectra = this.#spectra[i];
        for (const { number, place } of this.#partitions[o][i]) {
          const age = this.#slot - number + 1;
          fft.multiplyAdd(spectra + (age < 0 ? age + slots : age) * size, place, this.#sum);
        }
      }
      fft.inverse(this.#sum, this.#results[o]);
    }
  }
}

/** Numbers of the partitions, from 1 on, in which a response has a tap that is not 0. */
function filledPartitions(response: Float32Array, frames: number, end: number): readonly number[] {
  const last = Math.ceil(Math.min(end, response.length) / frames);
  return Array.from({ length: Math.max(0, last - 1) }, (_, k) => k + 1).filter((number) =>
    response.subarray(number * frames, Math.min((number + 1) * frames, end)).some((tap) => tap !== 0),
  );
}
