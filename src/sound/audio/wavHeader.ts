import { UserError } from "../../text/userError.js";
import { type ByteSource, lettersAt } from "./byteSource.js";

/** What the head of a WAV file says, and where the sound lies. */
export interface WavHeader {
  readonly coding: "integer" | "float";
  /** Size of a stored sample: 8, 16, 24, 32, or 64 for float. */
  readonly bits: number;
  readonly channels: number;
  readonly rateHz: number;
  /** Bytes a frame. */
  readonly frameBytes: number;
  readonly dataStart: number;
  /** Whole frames that are in the file. */
  readonly frames: number;
  /** Whole frames that the header promises; null when it does not say (a stream's header). */
  readonly framesPromised: number | null;
}

/**
 * Reads a WAV header: PCM of 8, 16, 24 or 32 bits, float of 32 or 64, plain (tag 1, 3) or extensible (0xFFFE), RIFF
 * or RF64/BW64. Chunks it does not know, and the pad byte after a chunk of odd size, are skipped.
 *
 * A data size of 0xFFFFFFFF means that the writer could not go back: the sound then goes on to the end of the file.
 * A size of 0 with sound behind it is a recording that was never finished: nothing is promised, all of it is there.
 *
 * A frame has as many bytes as its samples need, each rounded up to whole bytes; any other size is refused, since
 * the sound would be read as noise.
 *
 * @throws UserError with the file's name when it has no format or no sound chunk, or a coding not read here
 * Source: Microsoft and IBM, Multimedia Programming Interface and Data Specifications 1.0 (1991), "WAVE"; extensible:
 *   Microsoft, WAVEFORMATEXTENSIBLE; RF64: EBU Tech 3306 (from memory).
 */
export function readWavHeader(source: ByteSource): WavHeader {
  const fail = (message: string): never => {
    throw new UserError({ file: source.name, message });
  };
  const isRf64 = lettersAt(source.read(0, 4), 0) !== "RIFF";
  let format: ReturnType<typeof readFormat> | null = null;
  let longDataBytes: number | null = null;

  for (let at = 12; at + 8 <= source.size; ) {
    const head = viewOf(source.read(at, 8));
    const id = lettersAt(source.read(at, 4), 0);
    const size = head.getUint32(4, true);
    if (id === "ds64" && isRf64) {
      const ds64 = viewOf(source.read(at + 8, 24));
      if (ds64.byteLength >= 16) longDataBytes = Number(ds64.getBigUint64(8, true));
    } else if (id === "fmt ") {
      format = readFormat(viewOf(source.read(at + 8, Math.min(size, 40))));
    } else if (id === "data") {
      if (format === null) return fail("is a WAV file without a format ahead of its sound. Export it again.");
      if (typeof format === "string") return fail(format);
      const present = source.size - at - 8;
      const told = size === 0xffffffff ? longDataBytes : size;
      const unfinished = told === 0 && at + 8 + format.frameBytes <= source.size && riffSize(source) <= at;
      const promised = told === null || unfinished ? null : told;
      return {
        ...format,
        dataStart: at + 8,
        frames: Math.floor(Math.min(promised ?? present, present) / format.frameBytes),
        framesPromised: promised === null ? null : Math.floor(promised / format.frameBytes),
      };
    }
    at += 8 + size + (size % 2);
  }
  return fail(
    "is a WAV file with no sound in it: its data chunk is missing. It may be cut off; copy it again.",
  );
}

/** The format chunk, or why it cannot be read. */
function readFormat(fmt: DataView): Omit<WavHeader, "dataStart" | "frames" | "framesPromised"> | string {
  if (fmt.byteLength < 16) return "has a WAV format chunk that is cut off. Export it again.";
  const plainTag = fmt.getUint16(0, true);
  const tag = plainTag === 0xfffe && fmt.byteLength >= 26 ? fmt.getUint16(24, true) : plainTag;
  const channels = fmt.getUint16(2, true);
  const rateHz = fmt.getUint32(4, true);
  const frameBytes = fmt.getUint16(12, true);
  const bits = channels > 0 ? (8 * frameBytes) / channels : 0;
  const told = fmt.getUint16(14, true);
  const coding = tag === 1 ? "integer" : tag === 3 ? "float" : null;
  if (coding === null) {
    return `is a WAV file of coding 0x${tag.toString(16).padStart(4, "0")}; PCM and float are read. Export it as 24-bit PCM.`;
  }
  if (channels === 0) return "is a WAV file of no channels. Export it again.";
  if (frameBytes !== channels * Math.ceil(told / 8)) {
    const sides = channels === 1 ? "1 channel" : `${channels} channels`;
    return `is a WAV file that contradicts itself: ${sides} of ${told} bits in frames of ${frameBytes} bytes. Export it again.`;
  }
  const allowed = coding === "integer" ? [8, 16, 24, 32] : [32, 64];
  if (!allowed.includes(bits)) {
    return `is a WAV file of ${bits}-bit ${coding} samples; read are ${allowed.join(", ")} bits. Export it as 24-bit PCM.`;
  }
  return { coding, bits, channels, rateHz, frameBytes };
}

const riffSize = (source: ByteSource): number => viewOf(source.read(4, 4)).getUint32(0, true);

const viewOf = (bytes: Uint8Array): DataView =>
  new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
