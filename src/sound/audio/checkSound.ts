import { UserError } from "../../text/userError.js";
import type { SoundReader } from "./soundReader.js";

/** Sample rates read, in Hz. */
const lowestRateHz = 8_000;
const highestRateHz = 192_000;

/**
 * Checks what the head of a sound file says against what can be used.
 *
 * @param file            what messages call it
 * @param allowTruncated  use what there is of a file that is cut off
 * @returns what is odd about its length, in plain sentences
 * @throws UserError when it is cut off, of more than two channels, of another rate, or of no length
 */
export function checkSound(
  reader: Pick<SoundReader, "kind" | "rateHz" | "channels" | "frames" | "framesPromised">,
  file: string,
  allowTruncated: boolean,
): readonly string[] {
  const refuse = (message: string): never => {
    throw new UserError({ file, message });
  };
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
  if (framesPromised === null && reader.kind === "WAV") {
    if (frames === 0) refuse("has a length of zero: no sound at all. Record or export it again.");
    return [`the header does not say how long it is; all ${readable} in the file are used`];
  }
  if (framesPromised === null || frames >= framesPromised) {
    if (frames === 0) refuse("holds no whole frame of sound. Copy or export it again.");
    return [];
  }
  const promised = `${seconds(framesPromised, rateHz)} s`;
  if (frames === 0) refuse(`is cut off or damaged: nothing of its ${promised} can be read. Copy it again.`);
  if (!allowTruncated) {
    refuse(
      `is cut off or damaged: ${readable} of ${promised} can be read. Copy it again, or use --allow-truncated to take what is there.`,
    );
  }
  return [`cut off or damaged: ${readable} of ${promised} can be read and are used`];
}

const seconds = (frames: number, rateHz: number): string => (frames / rateHz).toFixed(2);
