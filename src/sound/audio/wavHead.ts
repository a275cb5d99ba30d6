import { UserError } from "../../text/userError.js";

/** Bits a sample: 16 and 24 are integers, 32 is float. */
export type WavBits = 16 | 24 | 32;

/** What a WAV file to be written is made of. */
export interface WavFormat {
  readonly rateHz: number;
  readonly channels: number;
  readonly bits: WavBits;
}

/** Sizes in the header have 32 bits. */
const largestBytes = 2 ** 32 - 1;

/**
 * The bytes ahead of the sound. Integers get the plain tag 1 and 44 bytes; float gets tag 3, the size of its (empty)
 * extension and a fact chunk, 58 bytes.
 *
 * The format's rule of use asks for the extensible tag above 16 bits. It is not followed: 24 bits in a 24-bit
 * container, one or two channels, are the same to every reader that was tried, and some refuse the extensible tag.
 * Source: Microsoft and IBM, Multimedia Programming Interface and Data Specifications 1.0 (1991); Microsoft, New
 *   Multimedia Data Types and Data Techniques (1994) for float and fact, from memory.
 */
export function wavHead({ rateHz, channels, bits }: WavFormat, frames: number): Uint8Array {
  const isFloat = bits === 32;
  const head = new Uint8Array(headBytes(bits));
  const view = new DataView(head.buffer);
  const frameBytes = (channels * bits) / 8;
  const soundBytes = frames * frameBytes;
  const letters = (at: number, word: string) => {
    for (let n = 0; n < word.length; n++) head[at + n] = word.charCodeAt(n);
  };
  letters(0, "RIFF");
  view.setUint32(4, head.length - 8 + soundBytes + (soundBytes % 2), true);
  letters(8, "WAVEfmt ");
  view.setUint32(16, isFloat ? 18 : 16, true);
  view.setUint16(20, isFloat ? 3 : 1, true);
  view.setUint16(22, channels, true);
  view.setUint32(24, rateHz, true);
  view.setUint32(28, rateHz * frameBytes, true);
  view.setUint16(32, frameBytes, true);
  view.setUint16(34, bits, true);
  if (isFloat) {
    letters(38, "fact");
    view.setUint32(42, 4, true);
    view.setUint32(46, frames, true);
  }
  letters(head.length - 8, "data");
  view.setUint32(head.length - 4, soundBytes, true);
  return head;
}

/** The most frames that fit into a WAV file. */
export const mostWavFrames = ({ channels, bits }: Omit<WavFormat, "rateHz">): number =>
  Math.floor((largestBytes - 1 - headBytes(bits)) / ((channels * bits) / 8));

/** @throws UserError when so many frames do not fit into a WAV file. */
export function refuseTooLong(file: string, format: WavFormat, frames: number): void {
  const mostFrames = mostWavFrames(format);
  if (frames <= mostFrames) return;
  const hours = (mostFrames / format.rateHz / 3600).toFixed(1);
  const message = `would be larger than 4 GiB; a WAV file of this kind holds ${hours} hours. Use a shorter take or fewer bits; nothing was written.`;
  throw new UserError({ file, message });
}

const headBytes = (bits: WavBits): number => (bits === 32 ? 58 : 44);
