import { MonoSource } from "./monoSource.js";
import { readSound, samplesFor } from "./readSound.js";
import type { TakeChannel } from "./takeNotices.js";

/** A dry take: one mono source, and what a person should know of the file it came from. */
export interface Take {
  readonly file: string;
  /** Of the whole file, in hexadecimal. */
  readonly sha256: string;
  readonly rateHz: number;
  /** Of the file: 1 or 2. */
  readonly channels: number;
  readonly frames: number;
  /** The mono source, on a SharedArrayBuffer: workers read it without a copy. */
  readonly samples: Float32Array;
  /** Plain sentences without a full stop at the end: clipped, DC offset, sides differ, cut off, silent. */
  readonly notices: readonly string[];
  /** True when the mono source holds nothing but zeros: there is then nothing to measure. */
  readonly silent: boolean;
}

/**
 * Reads a take of any kind that `openSound` opens, as one mono source: the mean of both sides, or one of them.
 *
 * Needs memory for the mono source (4 bytes a frame) and one piece of the file; a FLAC file is held whole besides,
 * and MP3, AIFF, Ogg and M4A take three times the decoded sound.
 *
 * @param channel         which side of a stereo take; of no effect on a mono one
 * @param allowTruncated  use what there is of a file that is cut off
 * @throws UserError, in one line, when the file cannot be used
 */
export async function readTake(
  file: string,
  { channel, allowTruncated }: { channel: TakeChannel; allowTruncated: boolean },
): Promise<Take> {
  let mono = new MonoSource(channel, new Float32Array(0));
  const facts = await readSound(file, allowTruncated, (reader) => {
    mono = new MonoSource(channel, samplesFor(reader, file));
    return mono.add;
  });
  const { rateHz, sha256, channels } = facts;
  const { samples } = mono;
  return {
    file,
    sha256,
    rateHz,
    channels: channels.length,
    frames: samples.length,
    samples,
    notices: [...facts.notices, ...mono.notices(channels)],
    silent: samples.every((x) => x === 0),
  };
}
