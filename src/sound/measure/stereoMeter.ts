import { type Clip, framesOf } from "../audio/clip.js";
import { FactsMeter } from "./factsMeter.js";
import { soundMeasuresOf } from "./fill.js";
import type { SoundMeasures } from "./measures.js";

/** Every measure that a stereo signal gives by itself, of a stream of any length, as `FactsMeter` takes it in. */
export class StereoMeter {
  readonly #meter: FactsMeter;

  constructor(rateHz: number) {
    this.#meter = new FactsMeter(rateHz);
  }

  /** Takes the first `frames` frames of both channels, full scale 1. */
  push(left: Float32Array, right: Float32Array, frames: number): void {
    this.#meter.push(left, right, frames);
  }

  /** Powers of the 400 ms gating blocks so far, one every 100 ms: what matching needs besides the measures. */
  gatingBlocks(): Float64Array {
    return this.#meter.facts().loudness?.blocks ?? new Float64Array(0);
  }

  /**
   * The measures of what was pushed so far; more can be pushed afterwards.
   * @throws RangeError when the sound holds NaN or infinite samples
   */
  result(): SoundMeasures {
    return soundMeasuresOf(this.#meter.facts());
  }
}

/**
 * The measures of a whole clip: mono as left = right, otherwise the first two channels.
 *
 * @example
 * ```ts
 * import { measureClip, readClip } from "splitsum";
 * const clip = await readClip("stereo.wav", { allowTruncated: false });
 * const { integratedLufs, sideShare } = measureClip(clip);
 * console.log(integratedLufs, sideShare);
 * ```
 */
export function measureClip(clip: Clip): SoundMeasures {
  const meter = new StereoMeter(clip.rateHz);
  const [left = new Float32Array(0), right = left] = clip.channels;
  meter.push(left, right, framesOf(clip));
  return meter.result();
}
