import type { Block } from "../dsp/kernel.js";
import { readSound, samplesFor } from "./readSound.js";
import { crossEnergy } from "./takeCheck.js";
import { sidesNotice, type TakeChannel } from "./takeNotices.js";

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
  let samples: Float32Array = new Float32Array(0);
  let cross = 0;
  const facts = await readSound(file, allowTruncated, (reader) => {
    const whole = samplesFor(reader, file);
    samples = whole;
    return (block, frames, start) => {
      copyMono(block, frames, channel, whole.subarray(start, start + frames));
      if (block.length === 2) cross += crossEnergy(block, frames);
    };
  });
  const { rateHz, sha256, channels } = facts;
  const sides = channels.length === 2 ? sidesNotice(channels, cross, channel) : null;
  return {
    file,
    sha256,
    rateHz,
    channels: channels.length,
    frames: samples.length,
    samples,
    notices: [...facts.notices, ...(sides ? [sides] : [])],
    silent: samples.every((x) => x === 0),
  };
}

function copyMono([left, right]: Block, frames: number, channel: TakeChannel, output: Float32Array): void {
  if (right === undefined || channel !== "mean") {
    const used = right !== undefined && channel === "right" ? right : left;
    output.set(used.subarray(0, frames));
  } else for (let n = 0; n < frames; n++) output[n] = (left[n] + right[n]) / 2;
}
