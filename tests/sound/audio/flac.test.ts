import { createHash } from "node:crypto";
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join as path } from "node:path";
import { expect, test } from "vitest";
import { readClip } from "../../../src/node/audio/readClip.js";
import { readTake } from "../../../src/node/audio/readTake.js";
import { encodeFlac } from "../../../src/sound/audio/encodeFlac.js";
import { temporaryFolder } from "../../temporaryFolder.js";
import { expectSame } from "./expectSame.js";
import { blockFrames, silentFlac } from "./flacBytes.js";
import { integers, join, letters } from "./wavBytes.js";

/** Real recordings: the CC0 package `supersonic-scsynth-samples`. */
const folder = path(
  dirname(createRequire(import.meta.url).resolve("supersonic-scsynth-samples/package.json")),
  "samples",
);
const guitar = (name: string) => path(folder, `${name}.flac`);
const read = (file: string, allowTruncated = false) => readClip(file, { allowTruncated });

/** RFC 9639, section 8.2: bytes 18 to 34 of STREAMINFO are the MD5 of the interleaved integers that were encoded. */
test("decodes to the integers that were encoded: MD5 of every fourth recording, mono and stereo", async () => {
  const names = readdirSync(folder).filter((name) => name.endsWith(".flac"));
  expect(names.length).toBeGreaterThan(100);
  for (const name of names.filter((_, n) => n % 4 === 0)) {
    const file = path(folder, name);
    const bytes = readFileSync(file);
    const bits = ((bytes.readUInt32BE(18) >>> 4) & 31) + 1;
    const { channels } = await read(file);
    const whole = Array.from({ length: channels.length * channels[0].length }, (_, n) =>
      Math.round(channels[n % channels.length][Math.floor(n / channels.length)] * 2 ** (bits - 1)),
    );
    const md5 = createHash("md5").update(integers(whole, bits)).digest("hex");
    expect(md5, name).toBe(bytes.subarray(26, 42).toString("hex"));
  }
});

/** A mono frame of constant value has 10 to 14 bytes (RFC 9639, sections 9.1 and 9.2.2). The encoder is libFLAC. */
test("a file that ends in digital silence is read to its end", async () => {
  const file = path(temporaryFolder(), "ends-silent.flac");
  for (const frames of [8192, 8193, 8200, 12_000, 20_479]) {
    const sound = Float32Array.from({ length: frames }, (_, n) => (n < 4000 ? ((n * 37) % 101) / 128 : 0));
    writeFileSync(file, await encodeFlac([sound], 48_000));
    expectSame((await read(file)).channels[0], sound);
  }
});

/** Bytes of a file in a new place, cut or changed. */
function changed(name: string, change: (bytes: Buffer) => Uint8Array): string {
  const file = path(temporaryFolder(), "take.flac");
  writeFileSync(file, change(readFileSync(guitar(name))));
  return file;
}

test("a cut file says how much is readable; allowed, it gives exactly the start of the whole one", async () => {
  const whole = await read(guitar("guit_em9"));
  for (const share of [0.06, 0.4, 0.71, 0.999]) {
    const file = changed("guit_em9", (bytes) => bytes.subarray(0, Math.round(bytes.length * share)));
    await expect(read(file)).rejects.toThrow(
      /take\.flac: is cut off or damaged: \d\.\d\d s of 9\.97 s can be read/,
    );
    const cut = await read(file, true);
    const frames = cut.channels[0].length;
    expect(frames % 4096).toBe(0);
    for (const [n, samples] of whole.channels.entries())
      expectSame(cut.channels[n], samples.slice(0, frames));
    expect(cut.notices[0]).toMatch(/^cut off or damaged: .* s of 9\.97 s can be read and are used$/);
  }
});

test("cut in its head, or so short that nothing can be read, it is refused in one line", async () => {
  const head = changed("guit_em9", (bytes) => bytes.subarray(0, 30));
  await expect(read(head, true)).rejects.toThrow(
    /is a FLAC file whose head is cut off\. Copy or export it again\.$/,
  );
  const nothing = changed("guit_e_slide", (bytes) => bytes.subarray(0, 9000));
  await expect(read(nothing, true)).rejects.toThrow(/nothing of its 4\.33 s can be read\. Copy it again\.$/);
});

test("a damaged byte ends what can be read before it, by the frame's own check", async () => {
  const file = changed("guit_em9", (bytes) => {
    bytes[Math.round(bytes.length / 2)] ^= 1;
    return bytes;
  });
  await expect(read(file)).rejects.toThrow(/is cut off or damaged: \d\.\d\d s of 9\.97 s/);
});

test("a tag behind the sound, as some programs put there, does no harm", async () => {
  const whole = await read(guitar("guit_e_slide"));
  const tagged = await read(changed("guit_e_slide", (bytes) => join(bytes, letters("TAG".padEnd(128, "x")))));
  expectSame(tagged.channels[0], whole.channels[0]);
});

/** A quarter of a megabyte that unpacks to 4.3 GB of floats; a stereo WAV file of 16 bits holds 1 073 741 812 frames. */
test("a file that unpacks to more than renders can hold is refused by its length, before decoding", async () => {
  const file = path(temporaryFolder(), "bomb.flac");
  const options = { channel: "mean", allowTruncated: false } as const;
  for (const promised of [0, 1000, 16_400 * blockFrames]) {
    writeFileSync(file, silentFlac(16_400, promised));
    await expect(readTake(file, options)).rejects.toThrow(
      "bomb.flac: is 6.2 hours long; stereo WAV files of 16 bits at 48000 Hz hold 6.2. Cut it or convert it to a lower sample rate.",
    );
  }
  writeFileSync(file, silentFlac(8));
  expect((await readTake(file, options)).frames).toBe(8 * blockFrames);
  writeFileSync(file, silentFlac(11_000));
  await expect(readTake(file, { ...options, rendersBits: 24 })).rejects.toThrow(
    "is 4.2 hours long; stereo WAV files of 24 bits at 48000 Hz hold 4.1. Cut it, ask for fewer bits, or convert",
  );
});

/** RFC 9639, section 8.2: the number of channels less one stands in bits 4 to 6 of the 13th byte of STREAMINFO. */
test("a head that promises another number of channels than the frames hold is refused in one line", async () => {
  const file = changed("guit_e_fifths", (bytes) => {
    bytes[20] ^= 0x02;
    return bytes;
  });
  await expect(read(file)).rejects.toThrow(
    /take\.flac: is damaged from about 0\.0 s on: it does not decode to what its frames promise\. Export it again\.$/,
  );
});
