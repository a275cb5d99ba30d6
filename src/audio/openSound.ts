import { UserError } from "../userError.js";
import type { ByteSource } from "./byteSource.js";
import { openDecodedReader } from "./decodedReader.js";
import { openFlacReader } from "./flacReader.js";
import { soundKind, soundKinds } from "./soundKind.js";
import type { SoundReader } from "./soundReader.js";
import { openWavReader } from "./wavReader.js";

/** Sample rates read, in Hz. */
export const lowestRateHz = 8_000;
export const highestRateHz = 192_000;

/** A reader for the file, and what is odd about its length. */
export interface OpenSound {
  readonly reader: SoundReader;
  readonly notices: readonly string[];
}

/**
 * Opens a sound file of any kind read here and checks what its head says.
 *
 * @param allowTruncated  use what there is of a file that is cut off, with a notice
 * @throws UserError when it is not sound, cut off, of more than two channels, of another rate, or of no length
 */
export async function openSound(source: ByteSource, allowTruncated: boolean): Promise<OpenSound> {
  const refuse = (message: string): never => {
    throw new UserError({ file: source.name, message });
  };
  const kind = soundKind(source.read(0, 16));
  if (kind === null) return refuse(`is not a sound file that can be read. Give one of ${soundKinds}.`);
  const reader =
    kind === "WAV"
      ? openWavReader(source)
      : kind === "FLAC"
        ? openFlacReader(source)
        : await openDecodedReader(source, kind);
  const { rateHz, channels, frames, framesPromised } = reader;

  if (channels > 2) {
    refuse(
      `has ${channels} channels${channels === 6 ? " (5.1)" : ""}; one or two are read. Export it as mono or stereo.`,
    );
  }
  if (rateHz < lowestRateHz || rateHz > highestRateHz) {
    refuse(
      `has a sample rate of ${rateHz} Hz; ${lowestRateHz} to ${highestRateHz} Hz are read. Convert it first.`,
    );
  }
  if (framesPromised === 0) refuse("has a length of zero: no sound at all. Record or export it again.");
  const readable = `${seconds(frames, rateHz)} s`;
  if (framesPromised === null && kind === "WAV") {
    if (frames === 0) refuse("has a length of zero: no sound at all. Record or export it again.");
    return {
      reader,
      notices: [`the header does not say how long it is; all ${readable} in the file are used`],
    };
  }
  if (framesPromised === null || frames >= framesPromised) {
    if (frames === 0) refuse("holds no whole frame of sound. Copy or export it again.");
    return { reader, notices: [] };
  }
  const promised = `${seconds(framesPromised, rateHz)} s`;
  if (frames === 0) refuse(`is cut off or damaged: nothing of its ${promised} can be read. Copy it again.`);
  if (!allowTruncated) {
    refuse(
      `is cut off or damaged: ${readable} of ${promised} can be read. Copy it again, or use --allow-truncated to take what is there.`,
    );
  }
  return { reader, notices: [`cut off or damaged: ${readable} of ${promised} can be read and are used`] };
}

const seconds = (frames: number, rateHz: number): string => (frames / rateHz).toFixed(2);
