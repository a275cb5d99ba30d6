import type { ByteSource } from "./byteSource.js";
import { decodePcm } from "./decodePcm.js";
import { fullScaleOf, type SoundPiece, type SoundReader } from "./soundReader.js";
import { decodesExactly, decodeWithLibrary } from "./wavDecoder.js";
import { readWavHeader, type WavHeader } from "./wavHeader.js";

/** Up to this size a file is decoded in one go by the library, if it does so exactly. */
const wholeBytes = 1 << 24;
const pieceFrames = 1 << 16;

/** Opens a WAV file; long files and 8, 24 and 32-bit ones are read in pieces of 65 536 frames. */
export function openWavReader(source: ByteSource): SoundReader {
  const header = readWavHeader(source);
  const soundBytes = header.frames * header.frameBytes;
  const whole = decodesExactly(header) && soundBytes <= wholeBytes && header.channels <= 2;
  return {
    kind: "WAV",
    rateHz: header.rateHz,
    channels: header.channels,
    frames: header.frames,
    framesPromised: header.framesPromised,
    fullScale: fullScaleOf(header.coding === "float" ? 32 : header.bits),
    pieces: () => (whole ? wholeFile(source, header) : inPieces(source, header)),
  };
}

async function* wholeFile(source: ByteSource, header: WavHeader): AsyncGenerator<SoundPiece> {
  const sound = source.read(header.dataStart, header.frames * header.frameBytes);
  yield { block: decodeWithLibrary(sound, header).channels, frames: header.frames };
}

async function* inPieces(source: ByteSource, header: WavHeader): AsyncGenerator<SoundPiece> {
  const block = Array.from({ length: header.channels }, () => new Float32Array(pieceFrames));
  for (let start = 0; start < header.frames; start += pieceFrames) {
    const frames = Math.min(pieceFrames, header.frames - start);
    const bytes = source.read(header.dataStart + start * header.frameBytes, frames * header.frameBytes);
    yield { block, frames: decodePcm(bytes, header, block) };
  }
}
