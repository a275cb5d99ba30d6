import { bytesSource } from "../../../sound/audio/byteSource.js";
import { checkSound } from "../../../sound/audio/checkSound.js";
import { fileRateHz, fileSeconds } from "../../../sound/audio/fileRate.js";
import { readFlacInfo } from "../../../sound/audio/flacFrames.js";
import { scanSound } from "../../../sound/audio/scanSound.js";
import { type SoundKind, soundKind } from "../../../sound/audio/soundKind.js";
import { fullScaleOf, type SoundReader } from "../../../sound/audio/soundReader.js";
import type { Take } from "../../../sound/audio/take.js";
import { MemoryStore, TakeIntake, takenChannels, usualTakeChannel } from "../../../sound/audio/takeIntake.js";
import { joined } from "../../../sound/audio/takeSource.js";
import { openWavReader } from "../../../sound/audio/wavReader.js";
import { UserError } from "../../../text/userError.js";
import { sha256Hex } from "./bytes.js";
import { decodeAt } from "./decode.js";

/** Used where a file does not tell its own rate. */
const usualRateHz = 48_000;

/**
 * A recording from a person's disk as a take, by the rules of the command line: checked, and folded to one mono
 * source unless the instrument has two outputs. WAV
 * is read by the project's own reader, to the bit; other files by the browser, at their own rate.
 *
 * @param outputs     of the instrument
 * @param mostFrames  longest take that there is memory for, at a given rate
 * @throws UserError when it cannot be used
 */
export async function openTake(
  file: File,
  outputs: 1 | 2,
  mostFrames: (rateHz: number) => number,
): Promise<Take> {
  const { name } = file;
  const refuse = (message: string): never => {
    throw new UserError({ file: name, message });
  };
  if (file.size === 0) refuse("is empty (0 bytes). Record or export it again.");
  if (file.size > mostBytes)
    refuse(`has ${(file.size / 2 ** 20).toFixed(0)} MB; up to 512 MB are read here.`);
  const bytes = new Uint8Array(await file.arrayBuffer());
  const kind = soundKind(bytes);
  if (kind === null)
    return refuse("is not a sound file that can be read. Give one of WAV, FLAC, MP3, Ogg or M4A.");
  const refuseLong = (seconds: number, rateHz: number) => {
    const mostSeconds = mostFrames(rateHz) / rateHz;
    if (seconds <= mostSeconds) return;
    const [long, longest] = [seconds, mostSeconds].map(Math.floor);
    refuse(
      `is ${long} s long; a page has memory for ${longest} s of this rig. Cut it, or use the command line.`,
    );
  };
  // A small file may unpack to gigabytes.
  const told = fileSeconds(bytes, kind, name);
  if (told !== null) refuseLong(told, fileRateHz(bytes, kind, name) ?? usualRateHz);
  const { reader, notices } = await readerOf(bytes, kind, name);
  const odd = checkSound(reader, name, true);
  const { rateHz, frames } = reader;
  refuseLong(frames / rateHz, rateHz);
  const used = usualTakeChannel(outputs);
  const length = takenChannels(used, reader.channels);
  const stores = Array.from({ length }, () => new MemoryStore(new Float32Array(frames)));
  const intake = new TakeIntake(used, stores);
  const scanned = await scanSound(reader, name, intake.add);
  if (scanned.channels.every(({ peak }) => peak === 0)) {
    refuse(`holds no sound (${(frames / rateHz).toFixed(1)} s of zeros). Choose a take with a signal in it.`);
  }
  return {
    file: name,
    sha256: await sha256Hex(bytes),
    rateHz,
    channels: reader.channels,
    frames,
    samples: joined(stores.map(({ samples }) => samples)),
    notices: [...notices, ...odd, ...scanned.notices, ...intake.notices(scanned.channels)],
    silent: false,
  };
}

/** A page holds the file, its sound and all renders at once. */
const mostBytes = 2 ** 29;

interface Opened {
  readonly reader: SoundReader;
  readonly notices: readonly string[];
}

/** A sound file as its reader, and what is to be told of it. */
export async function readerOf(
  bytes: Uint8Array<ArrayBuffer>,
  kind: SoundKind,
  name: string,
): Promise<Opened> {
  if (kind === "WAV") return { reader: openWavReader(bytesSource(name, bytes)), notices: [] };
  const toldHz = fileRateHz(bytes, kind, name);
  const rateHz = toldHz ?? usualRateHz;
  const info = kind === "FLAC" ? readFlacInfo(bytes, name) : null;
  const channels = await decoded(bytes, kind, rateHz, name);
  if (info?.bits === 16) channels.forEach(restoreIntegers);
  async function* pieces() {
    yield { block: channels, frames: channels[0].length };
  }
  const reader: SoundReader = {
    kind,
    rateHz,
    channels: channels.length,
    frames: channels[0].length,
    framesPromised: info?.framesPromised ?? null,
    fullScale: fullScaleOf(info?.bits ?? 16),
    pieces,
  };
  const unknown = `its sample rate could not be told; it was converted to ${usualRateHz} Hz if it was another`;
  return { reader, notices: toldHz === null ? [unknown] : [] };
}

async function decoded(bytes: Uint8Array<ArrayBuffer>, kind: SoundKind, rateHz: number, file: string) {
  try {
    return await decodeAt(bytes, rateHz);
  } catch {
    throw new UserError({
      file,
      message: `looks like ${kind}, but this browser cannot decode it. Export it as WAV or FLAC.`,
    });
  }
}

/**
 * Browsers divide positive 16-bit samples by 32 767 and negative ones by 32 768. Back to integers, and then by 2^15 on
 * both sides, as for every other file here.
 */
function restoreIntegers(samples: Float32Array): void {
  for (let n = 0; n < samples.length; n++) {
    const x = samples[n];
    samples[n] = Math.round(x > 0 ? x * 32_767 : x * 32_768) / 32_768;
  }
}
