import { gainToDb } from "../../sound/dsp/units.js";
import { meanSquareToDbfs } from "./dbu.js";

/** Peak and mean square of one signal, block by block. */
export class TapMeter {
  /** The largest absolute sample of the block that was pushed last. */
  blockPeak = 0;
  /** Frames before that block. */
  blockStart = 0;
  #peak = 0;
  #energy = 0;
  #frames = 0;

  push(samples: Float32Array, frames: number): void {
    let peak = 0;
    let energy = 0;
    for (let n = 0; n < frames; n++) {
      const size = Math.abs(samples[n]);
      energy += size * size;
      if (size > peak) peak = size;
    }
    this.blockPeak = peak;
    this.blockStart = this.#frames;
    this.#peak = Math.max(this.#peak, peak);
    this.#energy += energy;
    this.#frames += frames;
  }

  /** dBFS of the largest sample; null in silence. */
  get peakDbfs(): number | null {
    return this.#peak > 0 ? gainToDb(this.#peak) : null;
  }

  /** RMS over everything pushed, with a full-scale sine at 0 dBFS; null in silence. */
  get rmsDbfs(): number | null {
    return this.#energy > 0 ? meanSquareToDbfs(this.#energy / this.#frames) : null;
  }
}
