import type { Block } from "../dsp/kernel.js";
import { UserError } from "../userError.js";
import { openFileSource, sha256Of } from "./fileSource.js";
import { openSound } from "./openSound.js";
import type { SoundReader } from "./soundReader.js";
import { ChannelCheck, type ChannelFacts } from "./takeCheck.js";
import { silenceNotice, soundNotices } from "./takeNotices.js";

/** Receives the sound piece by piece; `start` is the frame at which the piece begins. */
export type PieceVisitor = (block: Block, frames: number, start: number) => void;

/** What is known of a sound file once it has been read through. */
export interface SoundFacts {
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
 * @throws UserError, in one line, when the file cannot be used
 */
export async function readSound(
  file: string,
  allowTruncated: boolean,
  begin: (reader: SoundReader) => PieceVisitor,
): Promise<SoundFacts> {
  const source = openFileSource(file);
  try {
    const { reader, notices } = await openSound(source, allowTruncated);
    const visit = begin(reader);
    const checks = Array.from({ length: reader.channels }, () => new ChannelCheck(reader.fullScale));
    let start = 0;
    for await (const { block, frames } of reader.pieces()) {
      for (const [n, check] of checks.entries()) check.add(block[n], frames);
      visit(block, frames, start);
      start += frames;
    }
    const channels = checks.map((check) => check.facts());
    refuseNotFinite(channels, reader.rateHz, file);
    const silence = silenceNotice(channels, reader.rateHz);
    return {
      file,
      sha256: sha256Of(source),
      rateHz: reader.rateHz,
      channels,
      notices: [...notices, ...soundNotices(channels, reader.rateHz), ...(silence ? [silence] : [])],
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

function refuseNotFinite(channels: readonly ChannelFacts[], rateHz: number, file: string): void {
  const found = channels.flatMap(({ firstNotFinite }, n) =>
    firstNotFinite ? [{ ...firstNotFinite, n }] : [],
  );
  if (found.length === 0) return;
  const { frame, value, n } = found.reduce((a, b) => (b.frame < a.frame ? b : a));
  const what = Number.isNaN(value) ? "not a number (NaN)" : "infinite";
  const side = channels.length === 2 ? ` on the ${["left", "right"][n]}` : "";
  throw new UserError({
    file,
    message: `sample ${frame} (${(frame / rateHz).toFixed(3)} s)${side} is ${what}; sound is made of finite numbers. Export it again.`,
  });
}
