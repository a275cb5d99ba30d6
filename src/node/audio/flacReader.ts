import type { ByteSource } from "../../sound/audio/byteSource.js";
import {
  type FlacFrame,
  type FlacInfo,
  flacFrames,
  flacStreamInfo,
  readFlacInfo,
} from "../../sound/audio/flacFrames.js";
import type { LengthBound } from "../../sound/audio/lengthBound.js";
import { fullScaleOf, type SoundPiece, type SoundReader } from "../../sound/audio/soundReader.js";
import { UserError } from "../../text/userError.js";
import { decodeCompressed } from "./decodeCompressed.js";

/** Sound decoded at a time: long takes then need no more memory than short ones. */
const pieceFrames = 1 << 19;

/** Opens a FLAC file. It is cut at frame borders and decoded piece by piece; an incomplete last frame is left out. */
export function openFlacReader(source: ByteSource, refuseLong: LengthBound): SoundReader {
  const told = flacStreamInfo(source.read(0, 42));
  if (told?.framesPromised) refuseLong(told.framesPromised, told.rateHz);
  const bytes = source.read(0, source.size);
  const info = readFlacInfo(bytes, source.name);
  const list = flacFrames(bytes, info);
  return {
    kind: "FLAC",
    rateHz: info.rateHz,
    channels: info.channels,
    frames: list.reduce((sum, { frames }) => sum + frames, 0),
    framesPromised: info.framesPromised,
    fullScale: fullScaleOf(info.bits),
    pieces: () => decodePieces(bytes, info, list, source.name),
  };
}

async function* decodePieces(
  bytes: Uint8Array,
  info: FlacInfo,
  list: readonly FlacFrame[],
  file: string,
): AsyncGenerator<SoundPiece> {
  let decoded = 0;
  for (let first = 0; first < list.length; ) {
    let frames = 0;
    let after = first;
    while (after < list.length && (frames === 0 || frames + list[after].frames <= pieceFrames)) {
      frames += list[after++].frames;
    }
    const run = bytes.subarray(list[first].at, list[after - 1].end);
    const piece = new Uint8Array(info.head.length + run.length);
    piece.set(info.head);
    piece.set(run, info.head.length);
    const { channels } = await decodeCompressed(piece, "FLAC", file);
    if (channels.length !== info.channels || channels[0].length !== frames) {
      const atSeconds = (decoded / info.rateHz).toFixed(1);
      const message = `is damaged from about ${atSeconds} s on: it does not decode to what its frames promise. Export it again.`;
      throw new UserError({ file, message });
    }
    for (const samples of channels) restoreIntegers(samples, info.bits);
    yield { block: channels, frames };
    decoded += frames;
    first = after;
  }
}

/**
 * The decoder divides by 2^(bits-1) - 1, and -1 comes out beyond full scale. Back to integers, and then by 2^(bits-1)
 * as for every other file here, to the bit.
 */
function restoreIntegers(samples: Float32Array, bits: number): void {
  const half = 2 ** (bits - 1);
  for (let n = 0; n < samples.length; n++) samples[n] = Math.round(samples[n] * (half - 1)) / half;
}
