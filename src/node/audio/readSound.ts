import { lengthBound } from "../../sound/audio/lengthBound.js";
import { type PieceVisitor, scanSound } from "../../sound/audio/scanSound.js";
import type { SoundReader } from "../../sound/audio/soundReader.js";
import type { ChannelFacts } from "../../sound/audio/takeCheck.js";
import type { WavBits } from "../../sound/audio/wavHead.js";
import { UserError } from "../../text/userError.js";
import { openFileSource, sha256Of } from "./fileSource.js";
import { openSound } from "./openSound.js";

/** What is known of a sound file once it has been read through. */
export interface ReadFacts {
  readonly file: string;
  /** Of the whole file, in hexadecimal. */
  readonly sha256: string;
  readonly rateHz: number;
  readonly channels: readonly ChannelFacts[];
  /** Plain sentences without a full stop at the end: cut off, clipped, over full scale, DC offset, silent. */
  readonly notices: readonly string[];
}

/**
 * Reads a sound file from start to end and checks every sample on the way.
 *
 * @param allowTruncated  use what there is of a file that is cut off
 * @param begin           told what the file holds, gives back what takes the pieces
 * @param rendersBits     of WAV files that are to be made of it: longer sound than they hold is refused from its head
 * @throws UserError, in one line, when the file cannot be used
 */
export async function readSound(
  file: string,
  allowTruncated: boolean,
  begin: (reader: SoundReader) => PieceVisitor,
  rendersBits: WavBits = 16,
): Promise<ReadFacts> {
  const source = openFileSource(file);
  try {
    const { reader, notices } = await openSound(source, allowTruncated, lengthBound(file, rendersBits));
    const scanned = await scanSound(reader, file, begin(reader));
    return {
      file,
      sha256: sha256Of(source),
      rateHz: reader.rateHz,
      channels: scanned.channels,
      notices: [...notices, ...scanned.notices],
    };
  } finally {
    source.close();
  }
}

/**
 * Memory for one channel of a file, on a SharedArrayBuffer: workers read it without a copy.
 *
 * @throws UserError (status 1) when there is not that much memory
 */
export function samplesFor({ frames, rateHz }: SoundReader, file: string): Float32Array {
  try {
    return new Float32Array(new SharedArrayBuffer(frames * 4));
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    const minutes = (frames / rateHz / 60).toFixed(0);
    const message = `is ${minutes} minutes long, more than this machine has memory for. Cut it into shorter takes.`;
    throw new UserError({ file, message }, 1);
  }
}
