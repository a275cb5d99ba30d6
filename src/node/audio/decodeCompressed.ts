import type { Clip } from "../../sound/audio/clip.js";
import type { SoundKind } from "../../sound/audio/soundKind.js";
import { UserError } from "../../text/userError.js";
import { codeOf } from "../files/fileFault.js";

/**
 * Decodes a file held whole in memory by the library `@audio/decode`, at the file's own rate.
 *
 * The library is loaded only now: it is an optional package, and a heavy one.
 *
 * @throws UserError when the package is not installed, or when the bytes cannot be decoded
 */
export async function decodeCompressed(bytes: Uint8Array, kind: SoundKind, file: string): Promise<Clip> {
  const { default: decode } = await loadLibrary(kind, file);
  const decoded = await decode(bytes).catch(() => null);
  // Of some damaged files the library makes a sound of nothing.
  if (decoded && decoded.sampleRate > 0 && decoded.channelData.length > 0)
    return { rateHz: decoded.sampleRate, channels: decoded.channelData };
  throw new UserError({
    file,
    message: `looks like ${kind} but cannot be decoded: it is damaged, cut off or of a coding not read here. Export it again, as 24-bit WAV if you can.`,
  });
}

async function loadLibrary(kind: SoundKind, file: string): Promise<typeof import("@audio/decode")> {
  try {
    return await import("@audio/decode");
  } catch (error) {
    if (codeOf(error) !== "ERR_MODULE_NOT_FOUND") throw error;
    throw new UserError({
      file,
      message: `is ${kind}; reading that needs the optional package @audio/decode, which is not installed. Run npm install @audio/decode, or export the take as WAV.`,
    });
  }
}
