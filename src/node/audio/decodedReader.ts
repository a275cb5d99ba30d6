import { type ByteSource, lettersAt } from "../../sound/audio/byteSource.js";
import { framesOf } from "../../sound/audio/clip.js";
import { fileRateHz, fileSeconds } from "../../sound/audio/fileRate.js";
import { refuseUndecodable } from "../../sound/audio/lengthBound.js";
import type { SoundKind } from "../../sound/audio/soundKind.js";
import type { SoundPiece, SoundReader } from "../../sound/audio/soundReader.js";
import { UserError } from "../../text/userError.js";
import { decodeCompressed } from "./decodeCompressed.js";

/** Opens MP3, AIFF, Ogg or M4A: decoded whole by the library, so a long take needs three times its size in memory. */
export async function openDecodedReader(source: ByteSource, kind: SoundKind): Promise<SoundReader> {
  const bytes = source.read(0, source.size);
  const framesPromised = kind === "AIFF" ? aiffFrames(bytes, source.name) : null;
  const seconds = fileSeconds(bytes, kind, source.name);
  const rateHz = fileRateHz(bytes, kind, source.name);
  if (seconds !== null && rateHz !== null) refuseUndecodable(source.name, kind, seconds, rateHz);
  const clip = await decodeCompressed(bytes, kind, source.name);
  const frames = framesOf(clip);
  async function* pieces(): AsyncGenerator<SoundPiece> {
    yield { block: clip.channels, frames };
  }
  return {
    kind,
    rateHz: clip.rateHz,
    channels: clip.channels.length,
    frames,
    framesPromised,
    fullScale: 1 - 2 ** -15,
    pieces,
  };
}

/** Frames that an AIFF file promises in its common chunk. Source: Apple, AIFF-C specification (1991), from memory. */
function aiffFrames(bytes: Uint8Array, file: string): number {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  for (let at = 12; at + 18 <= bytes.length; ) {
    if (lettersAt(bytes, at) === "COMM") return view.getUint32(at + 10);
    const size = view.getUint32(at + 4);
    at += 8 + size + (size % 2);
  }
  throw new UserError({ file, message: "is an AIFF file without a format chunk. Export it again." });
}
