import type { ByteSource } from "./byteSource.js";
import { decodePcm } from "./decodePcm.js";
import { fullScaleOf, type SoundPiece, type SoundReader } from "./soundReader.js";
import { decodesExactly, decodeWithLibrary } from "./wavDecoder.js";
import { readWavHeader, type WavHeader } from "./wavHeader.js";

const pieceFrames = 1 << 16;

/** Opens a WAV file, to be read in pieces of 65 536 frames: those that the library decodes exactly by it, others here. */
export function openWavReader(source: ByteSource): SoundReader {
  const header = readWavHeader(source);
  return {
    kind: "WAV",
    rateHz: header.rateHz,
    channels: header.channels,
    frames: header.frames,
    framesPromised: header.framesPromised,
    fullScale: fullScaleOf(header.coding === "float" ? 32 : header.bits),
    pieces: () => inPieces(source, header),
  };
}

async function* inPieces(source: ByteSource, header: WavHeader): AsyncGenerator<SoundPiece> {
  const isForLibrary = decodesExactly(header);
  const own = isForLibrary
    ? []
    : Array.from({ length: header.channels }, () => new Float32Array(pieceFrames));
  for (let start = 0; start < header.frames; start += pieceFrames) {
    const frames = Math.min(pieceFrames, header.frames - start);
    const bytes = source.read(header.dataStart + start * header.frameBytes, frames * header.frameBytes);
    if (isForLibrary) yield { block: decodeWithLibrary(bytes, header), frames };
    else yield { block: own, frames: decodePcm(bytes, header, own) };
  }
}
