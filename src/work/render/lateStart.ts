import type { Block, Kernel } from "../../sound/dsp/kernel.js";

/**
 * A kernel whose inputs come some frames late by the working of others ahead of it. It is started as late, so that its
 * oscillators stand where they are set when the take starts, whatever stands ahead. Until then it gives silence: nothing
 * has arrived, but for what an oversampling filter rings ahead of a take that begins abruptly.
 */
export class LateStart implements Kernel {
  readonly #kernel: Kernel;
  #silentFrames: number;

  /** @param lagFrames whole, 0 or more */
  constructor(kernel: Kernel, lagFrames: number) {
    this.#kernel = kernel;
    this.#silentFrames = lagFrames;
  }

  process(inputs: Block, outputs: Block, frames: number): void {
    if (this.#silentFrames === 0) this.#kernel.process(inputs, outputs, frames);
    else this.#begin(inputs, outputs, frames);
  }

  /** The blocks up to the start, and the one it lies in. */
  #begin(inputs: Block, outputs: Block, frames: number): void {
    const silent = Math.min(frames, this.#silentFrames);
    this.#silentFrames -= silent;
    for (const output of outputs) output.fill(0, 0, silent);
    if (silent === frames) return;
    const rest = (channel: Float32Array) => channel.subarray(silent);
    this.#kernel.process(inputs.map(rest), outputs.map(rest), frames - silent);
  }
}
