import type { SoundReader } from "../../sound/audio/soundReader.js";
import type { Take, TakeFacts } from "../../sound/audio/take.js";
import { type ChannelStore, MemoryStore, TakeIntake, takenChannels } from "../../sound/audio/takeIntake.js";
import type { TakeChannel } from "../../sound/audio/takeNotices.js";
import {
  channelsOf,
  type HeldTake,
  joined,
  perChannel,
  type StereoTake,
} from "../../sound/audio/takeSource.js";
import type { WavBits } from "../../sound/audio/wavHead.js";
import { readSound, samplesFor } from "./readSound.js";
import { closeSpooled, readerOf, type SpooledTake, TakeSpool } from "./takeSpool.js";

/** A dry take that stays on disk. */
export interface LongTake extends TakeFacts {
  readonly samples: null;
  readonly spool: SpooledTake | StereoTake<SpooledTake>;
}

export interface TakeOptions {
  /** What of a stereo take goes in, `both` for an instrument with two outputs; of no effect on a mono one. */
  readonly channel: TakeChannel;
  /** Use what there is of a file that is cut off. */
  readonly allowTruncated: boolean;
  /** Bits a sample of renders that are to be made of it; 16 where left out. A take too long for them is refused unread. */
  readonly rendersBits?: WavBits;
}

/** Takes of more frames than this stay on disk where that is possible: 11 minutes at 48 kHz, 128 MiB. */
export const mostHeldFrames = 1 << 25;

/**
 * Reads a take of any kind that `openSound` opens: as one mono source, the mean of both sides or one of them, or as both
 * sides, for an instrument with two outputs.
 *
 * Needs memory for what goes in (4 bytes a frame and channel) and one piece of the file; a FLAC file is held whole besides,
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
  const { facts, stores } = await readInto(
    file,
    options,
    (reader) => new MemoryStore(samplesFor(reader, file)),
  );
  return { ...facts, samples: heldIn(stores) };
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
  const spools: TakeSpool[] = [];
  try {
    const { facts, stores } = await readInto(file, options, (reader) => {
      if (reader.frames <= mostHeld) return new MemoryStore(samplesFor(reader, file));
      const spool = new TakeSpool();
      spools.push(spool);
      return spool;
    });
    if (spools.length === 0) return { ...facts, samples: heldIn(stores) };
    return { ...facts, samples: null, spool: joined(spools.map((spool) => spool.take())) };
  } catch (error) {
    for (const spool of spools) closeSpooled(spool.take());
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
  if (take.samples === null) for (const spool of channelsOf(take.spool)) closeSpooled(spool);
}

/** The samples of any take, read back into memory where it is on disk. */
export function samplesOf(take: Take | LongTake): HeldTake {
  if (take.samples) return take.samples;
  return perChannel(take.spool, (spool) => {
    const samples = new Float32Array(new SharedArrayBuffer(4 * spool.length));
    readerOf(spool).read(0, spool.length, samples);
    return samples;
  });
}

const heldIn = (stores: readonly ChannelStore[]): HeldTake =>
  joined(stores.flatMap((store) => (store instanceof MemoryStore ? [store.samples] : [])));

/** @param storeFor  makes the store of a channel */
async function readInto(
  file: string,
  { channel, allowTruncated, rendersBits }: TakeOptions,
  storeFor: (reader: SoundReader) => ChannelStore,
): Promise<{ facts: TakeFacts; stores: readonly ChannelStore[] }> {
  let stores: readonly ChannelStore[] = [];
  let intake = new TakeIntake(channel, stores);
  const begin = (reader: SoundReader) => {
    stores = Array.from({ length: takenChannels(channel, reader.channels) }, () => storeFor(reader));
    intake = new TakeIntake(channel, stores);
    return intake.add;
  };
  const { channels, ...facts } = await readSound(file, allowTruncated, begin, rendersBits);
  return {
    stores,
    facts: {
      file,
      sha256: facts.sha256,
      rateHz: facts.rateHz,
      channels: channels.length,
      frames: intake.frames,
      notices: [...facts.notices, ...intake.notices(channels)],
      silent: intake.isSilent,
    },
  };
}
