declare module "@echogarden/pffft-wasm/simd" {
  /** Pointers are byte addresses into the module's memory. */
  export interface Pffft {
    /** A view of the memory; it is replaced whenever memory grows. */
    readonly HEAPF32: Float32Array;
    _pffft_new_setup(size: number, kind: 0 | 1): number;
    _pffft_aligned_malloc(bytes: number): number;
    _pffft_aligned_free(pointer: number): void;
    /** Unordered spectrum, unscaled. `direction`: 0 forward, 1 back. */
    _pffft_transform(setup: number, input: number, output: number, work: number, direction: 0 | 1): void;
    /** sum += a * b * scale, bin by bin. */
    _pffft_zconvolve_accumulate(setup: number, a: number, b: number, sum: number, scale: number): void;
  }
  export interface PffftOptions {
    wasmBinary?: Uint8Array;
    locateFile?: (file: string) => string;
    printErr?: (text: string) => void;
  }
  export default function create(options?: PffftOptions): Promise<Pffft>;
}
