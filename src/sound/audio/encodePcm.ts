import wavEncoder from "wav-encoder";
import type { Block } from "../dsp/kernel.js";
import { packSpare } from "../loops/packing.js";
import { openRoom, roomBytes } from "../loops/room.js";
import { Dither } from "./dither.js";
import type { WavBits } from "./wavHead.js";

/**
 * Floats to stored samples: x times gain times 2^(bits-1), rounded, held within the coding; 16 bits are dithered,
 * 24 are only rounded (their rounding lies at -146 dB), 32 are stored as floats, by the library `wav-encoder`.
 *
 * A value over full scale is held at it and counted; NaN or infinity is a bug of the caller and throws.
 */
export class PcmEncoder {
  readonly #bits: WavBits;
  readonly #dithers: readonly Dither[];
  /** What stores samples of 24 bits as long as none is beyond full scale. */
  readonly #packed: Packed24 | null;
  /** Frames of the call in which any channel went beyond full scale, and whether there is one. */
  readonly #isClipped: Uint8Array;
  #isAnyClipped = false;
  #frame = 0;
  #clippedFrames = 0;

  /** @param pieceFrames  the most frames that one call of `encode` gets */
  constructor({ channels, bits }: { channels: number; bits: WavBits }, pieceFrames: number) {
    this.#bits = bits;
    this.#dithers = Array.from({ length: channels }, (_, n) => new Dither(n));
    this.#isClipped = new Uint8Array(pieceFrames);
    this.#packed = bits === 24 && channels <= 2 ? new Packed24(channels) : null;
  }

  /** Frames in which any channel went beyond full scale. */
  get clippedFrames(): number {
    return this.#clippedFrames;
  }

  /** Writes frames `start` to `start + frames` of the block into `bytes`, interleaved, from its beginning. */
  encode(block: Block, start: number, frames: number, gain: number, bytes: Uint8Array): void {
    const parts = block.map((samples) => samples.subarray(start, start + frames));
    if (this.#packed?.pack(parts, frames, gain * 2 ** 23, bytes)) {
      this.#frame += frames;
      return;
    }
    if (this.#bits === 32)
      bytes.set(floatBytes(parts.map((part, channel) => this.#gained(part, channel, gain))));
    else
      for (const [channel, part] of parts.entries()) {
        if (this.#bits === 24) this.#encode24(part, channel, block.length, gain, bytes);
        else this.#encode16(part, channel, block.length, gain, bytes);
      }
    this.#frame += frames;
    if (!this.#isAnyClipped) return;
    for (let n = 0; n < frames; n++) this.#clippedFrames += this.#isClipped[n];
    this.#isClipped.fill(0, 0, frames);
    this.#isAnyClipped = false;
  }

  #encode16(samples: Float32Array, channel: number, channels: number, gain: number, bytes: Uint8Array): void {
    const step = 2 * channels;
    const factor = gain * 2 ** 15;
    const dither = this.#dithers[channel];
    let at = 2 * channel;
    for (let n = 0; n < samples.length; n++, at += step) {
      let x = samples[n] * factor;
      if (!(Math.abs(x) <= 2 ** 15 - 1)) x = this.#held(x, channel, n);
      const whole = Math.floor(x + dither.nextLsb() + 0.5);
      const held = Math.max(-(2 ** 15), Math.min(2 ** 15 - 1, whole));
      bytes[at] = held;
      bytes[at + 1] = held >> 8;
    }
  }

  #encode24(samples: Float32Array, channel: number, channels: number, gain: number, bytes: Uint8Array): void {
    const step = 3 * channels;
    const factor = gain * 2 ** 23;
    let at = 3 * channel;
    for (let n = 0; n < samples.length; n++, at += step) {
      let x = samples[n] * factor;
      if (!(Math.abs(x) <= 2 ** 23 - 1)) x = this.#held(x, channel, n);
      const whole = Math.floor(x + 0.5) | 0;
      bytes[at] = whole;
      bytes[at + 1] = whole >> 8;
      bytes[at + 2] = whole >> 16;
    }
  }

  /** Samples times gain; those beyond full scale are kept, and counted. */
  #gained(samples: Float32Array, channel: number, gain: number): Float32Array {
    return samples.map((sample, n) => {
      const x = sample * gain;
      if (!(x >= -1 && x <= 1)) {
        this.#refuseNotFinite(x, channel, n);
        this.#clip(n);
      }
      return x;
    });
  }

  /** `x`, in steps of the coding, held within it; beyond full scale it is counted. */
  #held(x: number, channel: number, n: number): number {
    const scale = 2 ** (this.#bits - 1);
    this.#refuseNotFinite(x, channel, n);
    if (Math.abs(x) > scale) this.#clip(n);
    return Math.max(-scale, Math.min(scale - 1, x));
  }

  #clip(n: number): void {
    this.#isClipped[n] = 1;
    this.#isAnyClipped = true;
  }

  #refuseNotFinite(x: number, channel: number, n: number): void {
    if (Number.isFinite(x)) return;
    throw new RangeError(
      `encode: sample ${this.#frame + n} of channel ${channel} is ${x}; render finite sound`,
    );
  }
}

/** Frames stored at a time. */
const runFrames = 4096;

/** One or two channels as 24 bits, where all samples fit. */
class Packed24 {
  readonly #channels: readonly Float32Array[];
  readonly #bytes: Uint8Array;
  readonly #run: (frames: number, factor: number) => boolean;

  constructor(channels: number) {
    const samples = runFrames + packSpare;
    const words = Math.ceil((3 * channels * samples) / 4);
    const each = Array<number>(channels).fill(4 * samples);
    const room = openRoom(roomBytes(...each, 4 * words));
    this.#channels = each.map(() => room.floats(samples));
    const packed = room.integers(words);
    this.#bytes = new Uint8Array(packed.buffer, packed.byteOffset, packed.byteLength);
    this.#run = room.loops.pack24(this.#channels, packed);
  }

  /** @returns false where a sample is beyond full scale, or no number: what was written then does not count */
  pack(channels: Block, frames: number, factor: number, bytes: Uint8Array): boolean {
    const frameBytes = 3 * this.#channels.length;
    for (let from = 0; from < frames; from += runFrames) {
      const run = Math.min(runFrames, frames - from);
      for (let c = 0; c < channels.length; c++) {
        this.#channels[c].set(channels[c].subarray(from, from + run));
      }
      if (!this.#run(run, factor)) return false;
      bytes.set(this.#bytes.subarray(0, frameBytes * run), frameBytes * from);
    }
    return true;
  }
}

/** The library's header: 12 bytes of RIFF, 24 of the format, 8 ahead of the sound. */
const libraryHeadBytes = 44;

function floatBytes(channelData: readonly Float32Array[]): Uint8Array {
  const file = wavEncoder.encode.sync({ sampleRate: 48_000, channelData }, { float: true });
  return new Uint8Array(file, libraryHeadBytes);
}
