import type { Block } from "../dsp/kernel.js";
import { Dither } from "./dither.js";
import type { WavBits } from "./wavHead.js";

/**
 * Floats to stored samples: x times gain times 2^(bits-1), rounded, held within the coding; 16 bits are dithered,
 * 24 are only rounded (their rounding lies at -146 dB), 32 are stored as floats.
 *
 * A value over full scale is held at it and counted; NaN or infinity is a bug of the caller and throws.
 */
export class PcmEncoder {
  readonly #bits: WavBits;
  readonly #dithers: readonly Dither[];
  readonly #isClipped: Uint8Array;
  #frame = 0;
  #clippedFrames = 0;

  /** @param pieceFrames  the most frames that one call of `encode` gets */
  constructor({ channels, bits }: { channels: number; bits: WavBits }, pieceFrames: number) {
    this.#bits = bits;
    this.#dithers = Array.from({ length: channels }, (_, n) => new Dither(n));
    this.#isClipped = new Uint8Array(pieceFrames);
  }

  /** Frames in which any channel went beyond full scale. */
  get clippedFrames(): number {
    return this.#clippedFrames;
  }

  /** Writes frames `start` to `start + frames` of the block into `bytes`, interleaved, from its beginning. */
  encode(block: Block, start: number, frames: number, gain: number, bytes: Uint8Array): void {
    for (const [channel, samples] of block.entries()) {
      const part = samples.subarray(start, start + frames);
      if (this.#bits === 32) this.#encodeFloat(part, channel, block.length, gain, bytes);
      else this.#encodeIntegers(part, channel, block.length, gain, bytes);
    }
    this.#frame += frames;
    for (let n = 0; n < frames; n++) this.#clippedFrames += this.#isClipped[n];
    this.#isClipped.fill(0, 0, frames);
  }

  #encodeIntegers(
    samples: Float32Array,
    channel: number,
    channels: number,
    gain: number,
    bytes: Uint8Array,
  ): void {
    const width = this.#bits / 8;
    const step = width * channels;
    const scale = 2 ** (this.#bits - 1);
    const factor = gain * scale;
    const top = scale - 1;
    const dither = this.#bits === 16 ? this.#dithers[channel] : null;
    let at = channel * width;
    for (let n = 0; n < samples.length; n++, at += step) {
      let x = samples[n] * factor;
      if (!(x >= -scale && x <= scale)) {
        this.#refuseNotFinite(x, channel, n);
        this.#isClipped[n] = 1;
      }
      if (dither !== null) x += dither.nextLsb();
      let whole = Math.floor(x + 0.5);
      if (whole > top) whole = top;
      else if (whole < -scale) whole = -scale;
      bytes[at] = whole;
      bytes[at + 1] = whole >> 8;
      if (width === 3) bytes[at + 2] = whole >> 16;
    }
  }

  #encodeFloat(
    samples: Float32Array,
    channel: number,
    channels: number,
    gain: number,
    bytes: Uint8Array,
  ): void {
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    const step = 4 * channels;
    let at = 4 * channel;
    for (let n = 0; n < samples.length; n++, at += step) {
      const x = samples[n] * gain;
      if (!(x >= -1 && x <= 1)) {
        this.#refuseNotFinite(x, channel, n);
        this.#isClipped[n] = 1;
      }
      view.setFloat32(at, x, true);
    }
  }

  #refuseNotFinite(x: number, channel: number, n: number): void {
    if (Number.isFinite(x)) return;
    throw new RangeError(
      `encode: sample ${this.#frame + n} of channel ${channel} is ${x}; render finite sound`,
    );
  }
}
