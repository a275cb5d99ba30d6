import type { ByteSource } from "../../sound/audio/byteSource.js";
import { checkSound } from "../../sound/audio/checkSound.js";
import type { LengthBound } from "../../sound/audio/lengthBound.js";
import { soundKind, soundKinds } from "../../sound/audio/soundKind.js";
import type { SoundReader } from "../../sound/audio/soundReader.js";
import { openWavReader } from "../../sound/audio/wavReader.js";
import { UserError } from "../../text/userError.js";
import { openDecodedReader } from "./decodedReader.js";
import { openFlacReader } from "./flacReader.js";

/** A reader for the file, and what is odd about its length. */
export interface OpenSound {
  readonly reader: SoundReader;
  readonly notices: readonly string[];
}

/**
 * Opens a sound file of any kind read here and checks what its head says.
 *
 * @param allowTruncated  use what there is of a file that is cut off, with a notice
 * @param refuseLong      told the length before anything is decoded
 * @throws UserError when it is not sound, cut off, of more than two channels, of another rate, or of no length
 */
export async function openSound(
  source: ByteSource,
  allowTruncated: boolean,
  refuseLong: LengthBound,
): Promise<OpenSound> {
  const refuse = (message: string): never => {
    throw new UserError({ file: source.name, message });
  };
  const kind = soundKind(source.read(0, 16));
  if (kind === null) return refuse(`is not a sound file that can be read. Give one of ${soundKinds}.`);
  const reader =
    kind === "WAV"
      ? openWavReader(source)
      : kind === "FLAC"
        ? openFlacReader(source, refuseLong)
        : await openDecodedReader(source, kind);
  refuseLong(reader.frames, reader.rateHz);
  return { reader, notices: checkSound(reader, source.name, allowTruncated) };
}
