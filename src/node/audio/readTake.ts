import { MemoryStore, MonoSource, type MonoStore } from "../../sound/audio/monoSource.js";
import type { SoundReader } from "../../sound/audio/soundReader.js";
import type { Take, TakeFacts } from "../../sound/audio/take.js";
import type { TakeChannel } from "../../sound/audio/takeNotices.js";
import { readSound, samplesFor } from "./readSound.js";
import { closeSpooled, readerOf, type SpooledTake, TakeSpool } from "./takeSpool.js";

/** A dry take that stays on disk. */
export interface LongTake extends TakeFacts {
  readonly samples: null;
  readonly spool: SpooledTake;
}

export interface TakeOptions {
  /** Which side of a stereo take; of no effect on a mono one. */
  readonly channel: TakeChannel;
  /** Use what there is of a file that is cut off. */
  readonly allowTruncated: boolean;
}

/** Takes of more frames than this stay on disk where that is possible: 11 minutes at 48 kHz, 128 MiB. */
export const mostHeldFrames = 1 << 25;

/**
 * Reads a take of any kind that `openSound` opens, as one mono source: the mean of both sides, or one of them.
 *
 * Needs memory for the mono source (4 bytes a frame) and one piece of the file; a FLAC file is held whole besides,
 * and MP3, AIFF, Ogg and M4A take three times the decoded sound.
 *
 * @throws UserError, in one line, when the file cannot be used
 * @example
 * ```ts
 * import { readTake } from "splitsum";
 * const take = await readTake("take.wav", { channel: "mean", allowTruncated: false });
 * console.log(take.frames / take.rateHz, "s", take.notices);
 * ```
 */
export async function readTake(file: string, options: TakeOptions): Promise<Take> {
  let samples: Float32Array = new Float32Array(0);
  const facts = await readInto(file, options, (reader) => {
    samples = samplesFor(reader, file);
    return new MemoryStore(samples);
  });
  return { ...facts, samples };
}

/**
 * The same, but a long take is spooled to disk: memory does not grow with its length.
 *
 * @param mostHeld  frames that are held in memory at the most
 * @throws UserError, in one line, when the file cannot be used, or the disk is full
 * @example
 * ```ts
 * import { closeTake, readAnyTake } from "splitsum";
 * const take = await readAnyTake("take.wav", { channel: "mean", allowTruncated: false });
 * console.log(take.samples === null ? "on disk" : "in memory");
 * closeTake(take);
 * ```
 */
export async function readAnyTake(
  file: string,
  options: TakeOptions,
  mostHeld = mostHeldFrames,
): Promise<Take | LongTake> {
  let store: MemoryStore | TakeSpool = new MemoryStore(new Float32Array(0));
  const closeStore = () => store instanceof TakeSpool && closeSpooled(store.take());
  try {
    const facts = await readInto(file, options, (reader) => {
      store = reader.frames > mostHeld ? new TakeSpool() : new MemoryStore(samplesFor(reader, file));
      return store;
    });
    return finished(facts, store);
  } catch (error) {
    closeStore();
    throw error;
  }
}

/**
 * Gives back the disk that a long take lies on; nothing can be read of it afterwards. The end of the program does so too.
 *
 * @example
 * ```ts
 * import { closeTake, readAnyTake } from "splitsum";
 * const take = await readAnyTake("take.wav", { channel: "left", allowTruncated: false });
 * try {
 *   console.log(take.frames);
 * } finally {
 *   closeTake(take);
 * }
 * ```
 */
export function closeTake(take: Take | LongTake): void {
  if (take.samples === null) closeSpooled(take.spool);
}

function finished(facts: TakeFacts, store: MemoryStore | TakeSpool): Take | LongTake {
  if (store instanceof TakeSpool) return { ...facts, samples: null, spool: store.take() };
  return { ...facts, samples: store.samples };
}

/** The samples of any take, read back into memory where it is on disk. */
export function samplesOf(take: Take | LongTake): Float32Array {
  if (take.samples) return take.samples;
  const samples = new Float32Array(new SharedArrayBuffer(4 * take.frames));
  readerOf(take.spool).read(0, take.frames, samples);
  return samples;
}

async function readInto(
  file: string,
  { channel, allowTruncated }: TakeOptions,
  storeFor: (reader: SoundReader) => MonoStore,
): Promise<TakeFacts> {
  let mono = new MonoSource(channel, new MemoryStore(new Float32Array(0)));
  const { channels, ...facts } = await readSound(file, allowTruncated, (reader) => {
    mono = new MonoSource(channel, storeFor(reader));
    return mono.add;
  });
  return {
    file,
    sha256: facts.sha256,
    rateHz: facts.rateHz,
    channels: channels.length,
    frames: mono.frames,
    notices: [...facts.notices, ...mono.notices(channels)],
    silent: mono.isSilent,
  };
}
