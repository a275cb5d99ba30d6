import { bytesSource } from "../../../sound/audio/byteSource.js";
import { checkSound } from "../../../sound/audio/checkSound.js";
import { encodeWav } from "../../../sound/audio/encodeWav.js";
import { soundKind } from "../../../sound/audio/soundKind.js";
import type { SoundReader } from "../../../sound/audio/soundReader.js";
import { openWavReader } from "../../../sound/audio/wavReader.js";
import { UserError } from "../../../text/userError.js";
import { fromBase64, toBase64 } from "./bytes.js";
import { decodeAt } from "./decode.js";
import { readerOf } from "./openTake.js";

/** Sound files that settings name, by the value of the setting. */
export type Clips = ReadonlyMap<string, readonly Float32Array[]>;

/** The sound files in the page: those that it came with, and those that a person brought. */
export class PageSoundFiles {
  /** As 32-bit float WAV files. */
  readonly #files: Map<string, Uint8Array<ArrayBuffer>>;
  /** By the rate that they were asked for at, until another is brought. */
  readonly #clips = new Map<number, Promise<Clips>>();

  /** @param cameWith  by name, base64 */
  constructor(cameWith: Readonly<Record<string, string>>) {
    this.#files = new Map(Object.entries(cameWith).map(([name, text]) => [name, fromBase64(text)]));
  }

  get names(): readonly string[] {
    return [...this.#files.keys()];
  }

  /** All of them as they travel in a page: by name, base64. */
  toTravel(): Readonly<Record<string, string>> {
    return Object.fromEntries([...this.#files].map(([name, bytes]) => [name, toBase64(bytes)]));
  }

  /** @throws UserError when it cannot be used */
  async bring(file: File): Promise<void> {
    const { name } = file;
    const refuse = (message: string): never => {
      throw new UserError({ file: name, message });
    };
    if (file.size === 0) refuse("is empty (0 bytes). Export it again.");
    if (file.size > mostBytes)
      refuse(
        `has ${(file.size / 2 ** 20).toFixed(0)} MB; up to 64 MB are read here. Cut it to the response.`,
      );
    const bytes = new Uint8Array(await file.arrayBuffer());
    const kind = soundKind(bytes);
    if (kind === null) return refuse("is not a sound file that can be read. Give a WAV file.");
    const { reader } = await readerOf(bytes, kind, name);
    checkSound(reader, name, false);
    const channels = await channelsOf(reader);
    if (channels.every((channel) => channel.every((x) => x === 0)))
      refuse("holds no sound. Choose the impulse response of a unit.");
    this.#files.set(name, new Uint8Array(encodeWav({ rateHz: reader.rateHz, channels }, 32, name)));
    this.#clips.clear();
  }

  /** All of them at this rate; the same object until another is brought. */
  at(rateHz: number): Promise<Clips> {
    const known = this.#clips.get(rateHz);
    if (known) return known;
    const made = this.#decode(rateHz);
    this.#clips.set(rateHz, made);
    return made;
  }

  async #decode(rateHz: number): Promise<Clips> {
    const decoded = [...this.#files].map(
      async ([name, bytes]) => [name, await responseAt(name, bytes, rateHz)] as const,
    );
    return new Map(await Promise.all(decoded));
  }
}

/** 30 s of four channels in 32 bits at 96 kHz are 46 MB. */
const mostBytes = 2 ** 26;

/** At another rate the samples of a response are scaled, so that its gain stays: see `resampleResponse`. */
async function responseAt(name: string, bytes: Uint8Array<ArrayBuffer>, rateHz: number) {
  const own = openWavReader(bytesSource(name, bytes)).rateHz;
  const channels = await decodeAt(bytes, rateHz);
  const gain = own / rateHz;
  return gain === 1 ? channels : channels.map((samples) => samples.map((x) => x * gain));
}

async function channelsOf(reader: SoundReader): Promise<readonly Float32Array[]> {
  const channels = Array.from({ length: reader.channels }, () => new Float32Array(reader.frames));
  let at = 0;
  for await (const { block, frames } of reader.pieces()) {
    for (const [n, samples] of channels.entries()) samples.set(block[n].subarray(0, frames), at);
    at += frames;
  }
  return channels;
}
