import type { Clip } from "../../sound/audio/clip.js";
import { readSound, samplesFor } from "./readSound.js";

/** A recording with both its channels, for `measure`, impulse responses and captures. */
export interface RecordedClip extends Clip {
  readonly file: string;
  /** Of the whole file, in hexadecimal. */
  readonly sha256: string;
  /** Plain sentences without a full stop at the end: clipped, DC offset, cut off, silent. */
  readonly notices: readonly string[];
  /** True when there is nothing but zeros in it. */
  readonly silent: boolean;
}

/**
 * Reads a sound file whole, one array a channel, each on a SharedArrayBuffer.
 *
 * @param allowTruncated  use what there is of a file that is cut off
 * @throws UserError, in one line, when the file cannot be used
 * @example
 * ```ts
 * import { readClip } from "splitsum";
 * const { rateHz, channels } = await readClip("stereo.wav", { allowTruncated: false });
 * console.log(rateHz, channels.length);
 * ```
 */
export async function readClip(
  file: string,
  { allowTruncated }: { allowTruncated: boolean },
): Promise<RecordedClip> {
  let channels: readonly Float32Array[] = [];
  const { rateHz, sha256, notices, ...facts } = await readSound(file, allowTruncated, (reader) => {
    channels = Array.from({ length: reader.channels }, () => samplesFor(reader, file));
    return (block, frames, start) => {
      for (const [n, samples] of channels.entries()) samples.set(block[n].subarray(0, frames), start);
    };
  });
  return { rateHz, channels, file, sha256, notices, silent: facts.channels.every(({ peak }) => peak === 0) };
}
