import { readAiffHead } from "../../sound/audio/aiffHead.js";
import type { ByteSource } from "../../sound/audio/byteSource.js";
import { framesOf } from "../../sound/audio/clip.js";
import { fileRateHz, fileSeconds } from "../../sound/audio/fileRate.js";
import { refuseUndecodable } from "../../sound/audio/lengthBound.js";
import type { SoundKind } from "../../sound/audio/soundKind.js";
import type { SoundPiece, SoundReader } from "../../sound/audio/soundReader.js";
import { decodeCompressed } from "./decodeCompressed.js";

/** Opens MP3, AIFF, Ogg or M4A: decoded whole by the library, so a long take needs three times its size in memory. */
export async function openDecodedReader(source: ByteSource, kind: SoundKind): Promise<SoundReader> {
  const bytes = source.read(0, source.size);
  const framesPromised = kind === "AIFF" ? readAiffHead(bytes, source.name).frames : null;
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
