import type { Block, Kernel } from "./kernel.js";

/** A kernel for one channel. Like `Kernel`: no allocation, any block size, the same bits. */
export interface MonoKernel {
  process(input: Float32Array, output: Float32Array, frames: number): void;
}

/**
 * One mono kernel for each channel that leaves; channel c hears input c, or the only input there is.
 * With one channel in and sides that are made alike (`alike`), one kernel works and its sound is copied.
 *
 * @param use   channels in and out
 * @param make  makes the kernel of one side: 0 left, 1 right
 * @param alike true when left and right do the same to the same sound
 */
export function kernelPerChannel(
  use: { readonly inputs: 1 | 2; readonly outputs: 1 | 2 },
  make: (side: 0 | 1) => MonoKernel,
  alike: boolean,
): Kernel {
  const sides: readonly (0 | 1)[] = use.outputs === 2 ? [0, 1] : [0];
  if (use.inputs === 1 && alike) return new Copied(make(0));
  return new Separate(sides.map((side) => make(side)));
}

class Separate implements Kernel {
  readonly #channels: readonly MonoKernel[];
  constructor(channels: readonly MonoKernel[]) {
    this.#channels = channels;
  }
  process(inputs: Block, outputs: Block, frames: number): void {
    const channels = this.#channels;
    for (let c = 0; c < channels.length; c++) {
      channels[c].process(inputs[c < inputs.length ? c : 0], outputs[c], frames);
    }
  }
}

class Copied implements Kernel {
  readonly #one: MonoKernel;
  constructor(one: MonoKernel) {
    this.#one = one;
  }
  process([input]: Block, outputs: Block, frames: number): void {
    const first = outputs[0];
    this.#one.process(input, first, frames);
    for (let c = 1; c < outputs.length; c++) {
      const other = outputs[c];
      for (let n = 0; n < frames; n++) other[n] = first[n];
    }
  }
}
