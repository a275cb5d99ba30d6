import type { Pffft } from "@echogarden/pffft-wasm/simd";

let module: Pffft | undefined;
let loading: Promise<void> | undefined;
const setups = new Map<number, { setup: number; work: number }>();
const unused = new FinalizationRegistry((pointer: number) => module?._pffft_aligned_free(pointer));

/**
 * Makes the fast transform ready; await it once before any `RealFft`, `FftMemory` or `Convolution` is made. Later calls
 * wait for the first.
 *
 * @param wasmBinary the bytes of `pffft.wasm`, where they cannot be read from beside the module (in a page)
 */
export function initialiseFft(wasmBinary?: Uint8Array): Promise<void> {
  loading ??= load(wasmBinary);
  return loading;
}

async function load(wasmBinary: Uint8Array | undefined): Promise<void> {
  const { default: create } = await import("@echogarden/pffft-wasm/simd");
  // What goes wrong is thrown; the library would also print it.
  const printErr = () => {};
  module = await create(wasmBinary ? { wasmBinary, locateFile: (file) => file, printErr } : { printErr });
}

/**
 * Single-precision memory that `RealFft` works in, all zero at first: `fftHeap()[place]` to `[place + floats - 1]`.
 * It is given back when the object is no longer used.
 */
export class FftMemory {
  /** Where it begins, in floats; a multiple of 16. */
  readonly place: number;
  /** @throws Error before `initialiseFft`, and when there is no more memory */
  constructor(floats: number) {
    const pffft = ready();
    const pointer = pffft._pffft_aligned_malloc(4 * floats);
    if (pointer === 0) throw new Error(`FftMemory: no memory for ${floats} floats`);
    unused.register(this, pointer);
    this.place = pointer / 4;
    fftHeap().fill(0, this.place, this.place + floats);
  }
}

/** All memory that transforms see. Take it anew after an `FftMemory` was made: it may have moved. */
export function fftHeap(): Float32Array {
  return ready().HEAPF32;
}

/**
 * Fourier transform of real signals of one size, in single precision, within `fftHeap()`; for convolution.
 * A spectrum takes `size` floats in an order of its own, which only `multiplyAdd` and `inverse` understand.
 * Places are counted in floats and are multiples of 4. The analysis of signals uses `AnalysisFft`, in double precision.
 */
export class RealFft {
  readonly #pffft: Pffft;
  readonly #setup: number;
  readonly #work: number;
  readonly #scale: number;
  /**
   * @param size a power of two of at least 32
   * @throws RangeError for another size: the library would abort
   */
  constructor(size: number) {
    if (size < 32 || !Number.isInteger(Math.log2(size))) {
      throw new RangeError(`RealFft: size is ${size}; it must be a power of two of at least 32`);
    }
    this.#pffft = ready();
    const { setup, work } = setupFor(this.#pffft, size);
    this.#setup = setup;
    this.#work = work;
    this.#scale = 1 / size;
  }
  forward(signal: number, spectrum: number): void {
    this.#pffft._pffft_transform(this.#setup, 4 * signal, 4 * spectrum, this.#work, 0);
  }
  /** Back without a scale: forward and back gives `size` times the signal. */
  inverse(spectrum: number, signal: number): void {
    this.#pffft._pffft_transform(this.#setup, 4 * spectrum, 4 * signal, this.#work, 1);
  }
  /** sum += a * b / size, bin by bin; with that scale, `inverse` then gives the circular convolution itself. */
  multiplyAdd(a: number, b: number, sum: number): void {
    this.#pffft._pffft_zconvolve_accumulate(this.#setup, 4 * a, 4 * b, 4 * sum, this.#scale);
  }
}

function ready(): Pffft {
  if (!module) throw new Error("the FFT is not ready: await initialiseFft() first");
  return module;
}

/** Tables and scratch memory of one size, shared by all that use it. */
function setupFor(pffft: Pffft, size: number): { setup: number; work: number } {
  const known = setups.get(size);
  if (known) return known;
  const made = {
    setup: pffft._pffft_new_setup(size, 0),
    work: pffft._pffft_aligned_malloc(4 * size),
  };
  setups.set(size, made);
  return made;
}
