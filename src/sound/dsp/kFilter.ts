import type { BiquadCoefficients } from "./biquad.js";
import type { Block, Kernel } from "./kernel.js";
import { kWeighting } from "./kWeighting.js";

/** Frames between looks at the memory; in so few, nothing above `restLevel` fades to where doubles turn slow. */
const restFrames = 512;
const restLevel = 1e-30;

/**
 * K-weights two channels, in one loop: four independent recursions keep the processor busier than one after another.
 * Transposed direct form II, in double; the high-pass's gain is carried by the shelf's numerator.
 * In silence the memory is set to zero once it is below 1e-30, every 512 frames of the stream, whatever the blocks.
 * Source: ITU-R BS.1770-5 (2023), Annex 1; see kWeighting.ts.
 */
export class KFilter implements Kernel {
  /** Carries the high-pass's gain too. */
  readonly #shelf: BiquadCoefficients;
  readonly #highPass: BiquadCoefficients;
  readonly #memory = new Float64Array(8);
  #untilRest = restFrames;

  constructor(rateHz: number) {
    const { shelf, highPass } = kWeighting(rateHz);
    const gain = highPass.b0;
    this.#shelf = { ...shelf, b0: shelf.b0 * gain, b1: shelf.b1 * gain, b2: shelf.b2 * gain };
    this.#highPass = highPass;
  }

  process([left, right]: Block, [leftOut, rightOut]: Block, frames: number): void {
    for (let from = 0; from < frames; ) {
      const to = Math.min(frames, from + this.#untilRest);
      this.#run(left, right, leftOut, rightOut, from, to);
      this.#untilRest -= to - from;
      if (this.#untilRest === 0) this.#rest();
      from = to;
    }
  }

  #run(
    left: Float32Array,
    right: Float32Array,
    leftOut: Float32Array,
    rightOut: Float32Array,
    from: number,
    to: number,
  ): void {
    const { b0, b1, b2, a1, a2 } = this.#shelf;
    const c1 = this.#highPass.a1;
    const c2 = this.#highPass.a2;
    const memory = this.#memory;
    let l1 = memory[0];
    let l2 = memory[1];
    let l3 = memory[2];
    let l4 = memory[3];
    let r1 = memory[4];
    let r2 = memory[5];
    let r3 = memory[6];
    let r4 = memory[7];
    for (let n = from; n < to; n++) {
      const x = left[n];
      const head = b0 * x + l1;
      l1 = b1 * x - a1 * head + l2;
      l2 = b2 * x - a2 * head;
      const y = head + l3;
      l3 = l4 - 2 * head - c1 * y;
      l4 = head - c2 * y;
      leftOut[n] = y;
      const u = right[n];
      const rightHead = b0 * u + r1;
      r1 = b1 * u - a1 * rightHead + r2;
      r2 = b2 * u - a2 * rightHead;
      const v = rightHead + r3;
      r3 = r4 - 2 * rightHead - c1 * v;
      r4 = rightHead - c2 * v;
      rightOut[n] = v;
    }
    memory[0] = l1;
    memory[1] = l2;
    memory[2] = l3;
    memory[3] = l4;
    memory[4] = r1;
    memory[5] = r2;
    memory[6] = r3;
    memory[7] = r4;
  }

  #rest(): void {
    this.#untilRest = restFrames;
    const memory = this.#memory;
    for (let k = 0; k < memory.length; k++) if (Math.abs(memory[k]) < restLevel) memory[k] = 0;
  }
}
