import type { Clip } from "./clip.js";
import { encodeWav } from "./encodeWav.js";

/** A place in a sound file with a name. */
export interface Cue {
  readonly frame: number;
  readonly label: string;
}

/**
 * A 24-bit WAV file whose cue points players and editors show as markers: chunk `cue ` with a place each, and in a list
 * `adtl` a `labl` each, behind the sound. Labels are written in UTF-8, which ends with a zero.
 * Source: Microsoft and IBM, Multimedia Programming Interface and Data Specifications 1.0 (1991), "Cue-Points Chunk" and
 *   "Associated Data List", from memory.
 * @throws as `encodeWav` does
 */
export function cuedWav(clip: Clip, cues: readonly Cue[], file?: string): Uint8Array {
  const sound = encodeWav(clip, 24, file);
  const chunks = [cueChunk(cues), listChunk(cues)];
  const even = sound.length + (sound.length % 2);
  const bytes = new Uint8Array(even + chunks.reduce((sum, { length }) => sum + length, 0));
  bytes.set(sound);
  let at = even;
  for (const chunk of chunks) {
    bytes.set(chunk, at);
    at += chunk.length;
  }
  new DataView(bytes.buffer).setUint32(4, bytes.length - 8, true);
  return bytes;
}

/** A cue: its number, its place in the order of play, the chunk that it is in, and two offsets that count for lists of sounds only. */
function cueChunk(cues: readonly Cue[]): Uint8Array {
  const entryBytes = 24;
  const body = new DataView(new ArrayBuffer(4 + entryBytes * cues.length));
  body.setUint32(0, cues.length, true);
  cues.forEach(({ frame }, n) => {
    const at = 4 + entryBytes * n;
    body.setUint32(at, n + 1, true);
    body.setUint32(at + 4, frame, true);
    new Uint8Array(body.buffer).set(letters("data"), at + 8);
    body.setUint32(at + 20, frame, true);
  });
  return chunkOf("cue ", new Uint8Array(body.buffer));
}

function listChunk(cues: readonly Cue[]): Uint8Array {
  const labels = cues.map(({ label }, n) => {
    const text = new TextEncoder().encode(label.replaceAll("\0", " "));
    const body = new Uint8Array(4 + text.length + 1);
    new DataView(body.buffer).setUint32(0, n + 1, true);
    body.set(text, 4);
    return chunkOf("labl", body);
  });
  return chunkOf("LIST", joined([letters("adtl"), ...labels]));
}

/** Name, size, body, and a zero that makes it even, which the size leaves out. */
function chunkOf(name: string, body: Uint8Array): Uint8Array {
  const chunk = new Uint8Array(8 + body.length + (body.length % 2));
  chunk.set(letters(name));
  new DataView(chunk.buffer).setUint32(4, body.length, true);
  chunk.set(body, 8);
  return chunk;
}

const letters = (word: string): Uint8Array => Uint8Array.from(word, (letter) => letter.charCodeAt(0));

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
