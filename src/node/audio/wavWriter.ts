import { closeSync, openSync, writeSync } from "node:fs";
import { PcmEncoder } from "../../sound/audio/encodePcm.js";
import { refuseTooLong, type WavFormat, wavHead } from "../../sound/audio/wavHead.js";
import type { Block } from "../../sound/dsp/kernel.js";
import { fileFault } from "../files/fileFault.js";

/** A WAV file that is being written. Memory does not grow with its length. */
export interface WavWriter {
  /** Appends the first `frames` frames of the block, times `gain`. */
  write(block: Block, frames: number, gain: number): void;
  /** Frames so far in which any channel went beyond full scale; 32-bit files keep them, others hold them at it. */
  readonly clippedFrames: number;
  /** Completes the header and closes the file. Until then it is not a sound file. */
  close(): void;
}

const pieceFrames = 1 << 14;

/**
 * Starts a WAV file: 16 bits dithered, 24 bits rounded, 32 bits float. The file must not exist yet.
 *
 * @param frames  how many frames are to come; given, a file that would not fit into 4 GiB is refused beforehand
 * @throws UserError when it would be too large (status 2), or cannot be written, as with a full disk (status 1);
 *   RangeError at the first sample that is not finite, which is a bug of the caller
 */
export function openWav(
  file: string,
  { frames, ...format }: WavFormat & { readonly frames?: number },
): WavWriter {
  if (frames !== undefined) refuseTooLong(file, format, frames);
  const frameBytes = (format.channels * format.bits) / 8;
  const bytes = new Uint8Array(pieceFrames * frameBytes);
  const encoder = new PcmEncoder(format, pieceFrames);
  const handle = orFault(file, () => openSync(file, "wx"));
  let written = 0;
  let isOpen = true;

  const orClose = (work: () => void): void => {
    try {
      orFault(file, work);
    } catch (error) {
      if (isOpen) closeSync(handle);
      isOpen = false;
      throw error;
    }
  };
  orClose(() => writeAll(handle, wavHead(format, 0), null));

  return {
    write(block, blockFrames, gain) {
      if (block.length !== format.channels) {
        throw new RangeError(`openWav: block has ${block.length} channels, the file has ${format.channels}`);
      }
      orClose(() => {
        refuseTooLong(file, format, written + blockFrames);
        for (let start = 0; start < blockFrames; start += pieceFrames) {
          const count = Math.min(pieceFrames, blockFrames - start);
          encoder.encode(block, start, count, gain, bytes);
          writeAll(handle, bytes.subarray(0, count * frameBytes), null);
        }
        written += blockFrames;
      });
    },
    get clippedFrames() {
      return encoder.clippedFrames;
    },
    close() {
      orClose(() => {
        if ((written * frameBytes) % 2 === 1) writeAll(handle, new Uint8Array(1), null);
        writeAll(handle, wavHead(format, written), 0);
        isOpen = false;
        closeSync(handle);
      });
    },
  };
}

/** Writes every byte, at `position` or behind what stands there. The system may take fewer than it is given. */
function writeAll(handle: number, bytes: Uint8Array, position: number | null): void {
  let done = 0;
  while (done < bytes.length) {
    const at = position === null ? null : position + done;
    done += writeSync(handle, bytes, done, bytes.length - done, at);
  }
}

function orFault<T>(file: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw fileFault(error, file, "write");
  }
}
