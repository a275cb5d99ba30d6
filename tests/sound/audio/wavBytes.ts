/** Builds WAV files byte by byte, so that readers are tested against the format and not against our writer. */
export interface WavParts {
  riff?: string;
  tag?: number;
  /** The tag inside an extensible format chunk; makes it extensible. */
  subTag?: number;
  bits: number;
  channels?: number;
  /** Block alignment; the true one if not given. */
  frameBytes?: number;
  rateHz?: number;
  /** Interleaved stored samples, as bytes. */
  sound: Uint8Array;
  /** Size written into the data chunk; the true one if not given. */
  dataBytes?: number;
  riffBytes?: number;
  /** Whole chunks ahead of the format and ahead of the sound. */
  first?: Uint8Array;
  before?: Uint8Array;
  after?: Uint8Array;
}

export function wavFile(parts: WavParts): Uint8Array {
  const { tag = 1, subTag, bits, channels = 1, rateHz = 48_000, sound } = parts;
  const frameBytes = parts.frameBytes ?? (bits / 8) * channels;
  const fmt = [...u16(subTag === undefined ? tag : 0xfffe), ...u16(channels), ...u32(rateHz)];
  fmt.push(...u32(rateHz * frameBytes), ...u16(frameBytes), ...u16(bits));
  if (subTag !== undefined) {
    fmt.push(...u16(22), ...u16(bits), ...u32(channels === 1 ? 4 : 3), ...u16(subTag));
    fmt.push(0, 0, 0, 0, 0x10, 0, 0x80, 0, 0, 0xaa, 0, 0x38, 0x9b, 0x71);
  }
  const body = join(
    letters("WAVE"),
    parts.first ?? new Uint8Array(0),
    chunk("fmt ", Uint8Array.from(fmt)),
    parts.before ?? new Uint8Array(0),
    letters("data"),
    u32(parts.dataBytes ?? sound.length),
    sound,
    new Uint8Array(sound.length % 2),
    parts.after ?? new Uint8Array(0),
  );
  return join(letters(parts.riff ?? "RIFF"), u32(parts.riffBytes ?? body.length), body);
}

/** A chunk with its pad byte. */
export function chunk(id: string, content: Uint8Array): Uint8Array {
  return join(letters(id), u32(content.length), content, new Uint8Array(content.length % 2));
}

/** Integers as little-endian bytes, `bits` wide; 8 bits unsigned about 128. */
export function integers(values: readonly number[], bits: number): Uint8Array {
  const bytes = new Uint8Array((values.length * bits) / 8);
  for (const [n, value] of values.entries()) {
    const stored = bits === 8 ? value + 128 : value;
    for (let k = 0; k < bits / 8; k++) bytes[(n * bits) / 8 + k] = Math.floor(stored / 256 ** k);
  }
  return bytes;
}

/** Floats as little-endian bytes, 32 or 64 bits wide. */
export function floats(values: ArrayLike<number>, bits: 32 | 64 = 32): Uint8Array {
  const view = new DataView(new ArrayBuffer((values.length * bits) / 8));
  for (let n = 0; n < values.length; n++) {
    if (bits === 32) view.setFloat32(4 * n, values[n], true);
    else view.setFloat64(8 * n, values[n], true);
  }
  return new Uint8Array(view.buffer);
}

export function join(...parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

export const letters = (word: string): Uint8Array => new TextEncoder().encode(word);
const u16 = (x: number): Uint8Array => Uint8Array.of(x & 255, x >> 8);
export const u32 = (x: number): Uint8Array =>
  Uint8Array.of(x & 255, (x >> 8) & 255, (x >> 16) & 255, x >>> 24);
