import { createHash } from "node:crypto";
import { readFileSync, truncateSync, writeFileSync } from "node:fs";
import { join as path } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { readTake } from "../../../src/node/audio/readTake.js";
import type { TakeChannel } from "../../../src/sound/audio/takeNotices.js";
import { channelsOf, monoOf } from "../../../src/sound/audio/takeSource.js";
import { noise, sine } from "../../signals.js";
import { expectSame } from "../../sound/audio/expectSame.js";
import {
  chunk,
  floats,
  integers,
  join,
  letters,
  u32,
  type WavParts,
  wavFile,
} from "../../sound/audio/wavBytes.js";
import { temporaryFolder } from "../../temporaryFolder.js";
import { expectWithin } from "../../within.js";

const tone = sine({ frequencyHz: 1000, rateHz: 48_000, lengthSeconds: 1, peakDbfs: -6 });

/** Reads bytes as a take; the message of the error stands for a take that is refused. */
async function take(
  bytes: Uint8Array,
  options: { channel?: TakeChannel; allowTruncated?: boolean; name?: string } = {},
) {
  const { channel = "mean", allowTruncated = false, name = "take.wav" } = options;
  const file = path(temporaryFolder(), name);
  writeFileSync(file, bytes);
  const read = await readTake(file, { channel, allowTruncated });
  return { ...read, samples: monoOf(read.samples), sides: channelsOf(read.samples) };
}
async function refusal(bytes: Uint8Array, name = "take.wav"): Promise<string> {
  const error = await take(bytes, { name }).then(
    () => new Error("was read"),
    (thrown: unknown) => thrown,
  );
  expect(error).toMatchObject({ name: "UserError", exitStatus: 2 });
  return error instanceof Error
    ? error.message.slice(error.message.indexOf(`${name}: `) + name.length + 2)
    : "";
}
const floatWav = (samples: ArrayLike<number>, parts: Partial<WavParts> = {}) =>
  wavFile({ tag: 3, bits: 32, sound: floats(samples), ...parts });
const interleave = (left: Float32Array, right: Float32Array) =>
  Float32Array.from({ length: 2 * left.length }, (_, n) => (n % 2 ? right : left)[n >> 1]);
const stereo = (left: Float32Array, right: Float32Array) =>
  floatWav(interleave(left, right), { channels: 2 });
const scaled = (samples: Float32Array, gain: number) => samples.map((x) => gain * x);

test("both sides of a stereo take go in where they are asked for; a mono take stays one source", async () => {
  const [left, right] = [noise({ seed: 1, frames: 9000 }), noise({ seed: 2, frames: 9000 })];
  const read = await take(stereo(left, right), { channel: "both" });
  expect(read.sides).toHaveLength(2);
  expectSame(read.sides[0], left);
  expectSame(read.sides[1], right);
  expect(read.sides[1].buffer).toBeInstanceOf(SharedArrayBuffer);
  expect(read).toMatchObject({ channels: 2, frames: 9000, notices: [], silent: false });
  expect((await take(floatWav(left), { channel: "both" })).sides).toHaveLength(1);
  const half = await take(stereo(left, new Float32Array(9000)), { channel: "both" });
  expect(half.silent).toBe(false);
  expect(half.notices).toEqual([expect.stringContaining("the right side is silent")]);
});

test("a mono take comes back as it is, shared between workers, with its hash", async () => {
  const bytes = floatWav(tone);
  const read = await take(bytes);
  expectSame(read.samples, tone);
  expect(read.samples.buffer).toBeInstanceOf(SharedArrayBuffer);
  expect(read).toMatchObject({ rateHz: 48_000, channels: 1, frames: 48_000, notices: [], silent: false });
  expect(read.sha256).toBe(createHash("sha256").update(bytes).digest("hex"));
});

test("a long file, read in pieces, is the same as a short one, read by the library", async () => {
  const long = noise({ seed: 11, frames: 4_300_000, rms: 0.1 });
  expectSame((await take(floatWav(long))).samples, long);
  const values = Array.from(long.subarray(0, 200_000), (x) =>
    Math.max(-8_388_608, Math.round(x * 8_388_608)),
  );
  const read = await take(wavFile({ bits: 24, sound: integers(values, 24) }));
  expectSame(
    read.samples,
    Float32Array.from(values, (k) => k / 8_388_608),
  );
});

test("the mean of both sides is used, or the side that is named", async () => {
  const left = noise({ seed: 1, frames: 4800 });
  const right = noise({ seed: 2, frames: 4800 });
  const bytes = stereo(left, right);
  expectSame(
    (await take(bytes)).samples,
    left.map((x, n) => (x + right[n]) / 2),
  );
  expectSame((await take(bytes, { channel: "left" })).samples, left);
  expectSame((await take(bytes, { channel: "right" })).samples, right);
  expectSame((await take(floatWav(left), { channel: "right" })).samples, left);
});

/** Correlation and levels are closed forms of how the sides were made: r = g and 20 lg of the gains. */
test("sides that differ are told, with how, and what was done", async () => {
  const a = noise({ seed: 3, frames: 480_000 });
  const b = noise({ seed: 4, frames: 480_000 });
  const notices = async (left: Float32Array, right: Float32Array, channel: TakeChannel = "mean") =>
    (await take(stereo(left, right), { channel })).notices;
  expect(await notices(a, a)).toEqual([]);
  expect(await notices(a, scaled(a, 0.5))).toEqual([
    "left and right differ (correlation 1.00, left louder by 6.0 dB); their mean is used; --take-channel left or right takes another.",
  ]);
  expect(
    await notices(
      a,
      a.map((x, n) => 0.6 * x + 0.8 * b[n]),
      "right",
    ),
  ).toEqual([
    expect.stringMatching(
      /^left and right differ \(correlation 0\.60, .*; the right side is used; --take-channel mean or left/,
    ),
  ]);
  expect(
    (
      await notices(
        a,
        a.map((x, n) => -x + 0.01 * b[n]),
      )
    )[0],
  ).toMatch(
    /correlation -1\.00, equal level.* The mean is 46\.\d dB weaker than the sides: they cancel in part\.$/,
  );
  expect(await notices(a, new Float32Array(a.length))).toEqual([
    "the right side is silent; their mean is used; --take-channel left or right takes another",
  ]);
});

test("clipping, level over full scale and DC are told and kept", async () => {
  const clipped = Array.from({ length: 4800 }, (_, n) =>
    Math.max(-32_768, Math.min(32_767, Math.round(40_000 * Math.sin((2 * Math.PI * 100 * n) / 48_000)))),
  );
  // 100 Hz for 0.1 s behind a second of silence: ten periods, a flat top and a flat bottom each.
  const late = [...Array(48_000).fill(0), ...clipped];
  expect((await take(wavFile({ bits: 16, sound: integers(late, 16) }))).notices).toEqual([
    "clipped at 20 places (three or more full-scale samples in a row), first at 1.00 s; the distortion is part of the take now",
  ]);
  const twoFullScale = [0, 32_767, 32_767, 0, -32_768, 0, -32_768, -32_768, 100];
  expect((await take(wavFile({ bits: 16, sound: integers(twoFullScale, 16) }))).notices).not.toContainEqual(
    expect.stringContaining("clipped"),
  );
  expect((await take(floatWav(scaled(tone, 4)))).notices).toEqual([
    "goes over full scale, to +6.0 dBFS; it is kept as it is",
  ]);
  const offset = await take(floatWav(tone.map((x) => x - 0.01)));
  expect(offset.notices).toEqual(["has a DC offset: -40.0 dBFS, negative; it is kept as it is"]);
  expectWithin(offset.samples[0], -0.01, 1e-9);
});

test("a silent take is read and says so", async () => {
  const read = await take(floatWav(new Float32Array(48_000)));
  expect(read.silent).toBe(true);
  expect(read.notices).toEqual(["holds no sound (1.0 s of zeros), so nothing can be measured"]);
});

test("sides that cancel leave a silent source", async () => {
  const read = await take(stereo(tone, scaled(tone, -1)));
  expect(read.silent).toBe(true);
  expect(read.notices[0]).toContain("The mean is over 60 dB weaker");
});

test.each([
  ["is empty (0 bytes)", new Uint8Array(0)],
  [
    "is not a sound file that can be read. Give one of WAV, FLAC, MP3, AIFF, Ogg or M4A.",
    letters("name: Ferry Road\n"),
  ],
  ["has a length of zero", wavFile({ bits: 16, sound: new Uint8Array(0) })],
  [
    "has 6 channels (5.1); one or two are read",
    wavFile({ bits: 16, channels: 6, sound: new Uint8Array(1200) }),
  ],
  [
    "has a sample rate of 4000 Hz; 8000 to 192000 Hz",
    wavFile({ bits: 16, rateHz: 4000, sound: new Uint8Array(100) }),
  ],
  ["has a sample rate of 384000 Hz", wavFile({ bits: 16, rateHz: 384_000, sound: new Uint8Array(100) })],
  [
    "is a WAV file of coding 0x0011; PCM and float are read",
    wavFile({ tag: 0x11, bits: 16, sound: new Uint8Array(100) }),
  ],
  ["is a WAV file of 48-bit integer samples", wavFile({ bits: 48, sound: new Uint8Array(96) })],
  ["is a WAV file of no channels", wavFile({ bits: 16, channels: 0, sound: new Uint8Array(96) })],
  [
    "is a WAV file with no sound in it",
    join(letters("RIFF"), u32(4), letters("WAVE"), chunk("LIST", letters("abcd"))),
  ],
  ["is a WAV file with no sound in it", wavFile({ bits: 16, sound: new Uint8Array(100) }).subarray(0, 30)],
  [
    "is a WAV file without a format",
    join(letters("RIFF"), u32(20), letters("WAVE"), chunk("data", letters("abcd"))),
  ],
  // The format chunk's block alignment is channels times the bytes of a sample, which hold its bits (WAVE, 1991).
  [
    "is a WAV file that contradicts itself: 1 channel of 16 bits in frames of 3 bytes",
    wavFile({ bits: 16, frameBytes: 3, sound: new Uint8Array(96) }),
  ],
  [
    "is a WAV file that contradicts itself: 2 channels of 16 bits in frames of 2 bytes",
    wavFile({ bits: 16, channels: 2, frameBytes: 2, sound: new Uint8Array(96) }),
  ],
  ["sample 2 (0.000 s) is 770 dB over full scale; up to 120 dB", floatWav([0, 1e6, -3.3e38, 0])],
  ["sample 5 (0.000 s) is not a number (NaN)", floatWav([0, 0, 0, 0, 0, Number.NaN])],
  ["sample 1 (0.000 s) on the right is infinite", floatWav([0, 0, 0, -1 / 0, 1 / 0, 0], { channels: 2 })],
])("refused in one line: %s", async (message, bytes) => {
  const said = await refusal(bytes);
  expect(said.startsWith(message), said).toBe(true);
  expect(said).not.toContain("\n");
});

test("20 bits in 24 are read", async () => {
  const values = [-524_288, 0, 1, 524_287].map((k) => k * 16);
  const bytes = wavFile({ bits: 20, frameBytes: 3, sound: integers(values, 24) });
  expect([...(await take(bytes)).samples]).toEqual(values.map((k) => k / 8_388_608));
});

test("a NaN far into a long take is found where it is", async () => {
  const samples = noise({ seed: 5, frames: 4_400_000 });
  samples[4_300_123] = Number.NaN;
  expect(await refusal(floatWav(samples))).toMatch(/^sample 4300123 \(89\.586 s\) is not a number/);
});

test("missing files and folders are told as what they are", async () => {
  const folder = temporaryFolder();
  const options = { channel: "mean", allowTruncated: false } as const;
  await expect(readTake(folder, options)).rejects.toThrow(
    `${folder}: is a folder, where a sound file is needed`,
  );
  await expect(readTake(path(folder, "no.wav"), options)).rejects.toThrow(/no\.wav: there is no such file/);
});

test("a file of over 4 GiB is refused before it is read", async () => {
  const file = path(temporaryFolder(), "endless.wav");
  writeFileSync(file, floatWav(tone));
  truncateSync(file, 5 * 2 ** 30);
  await expect(readTake(file, { channel: "mean", allowTruncated: false })).rejects.toThrow(
    "endless.wav: has 5.0 GiB; sound files of up to 4 GiB are read. Cut it into shorter takes.",
  );
});

/** Closed form: 3 h at 192 kHz are 2.07e9 frames; 2^32 bytes of stereo in 16 bits hold 1.07e9, 1.6 h. */
test("a take whose renders no WAV file would hold is refused from its head", async () => {
  const file = path(temporaryFolder(), "long.wav");
  const bytes = 3 * 3600 * 192_000 * 2;
  writeFileSync(file, wavFile({ bits: 16, rateHz: 192_000, dataBytes: bytes, sound: new Uint8Array(96) }));
  truncateSync(file, 44 + bytes);
  await expect(readTake(file, { channel: "mean", allowTruncated: false })).rejects.toThrow(
    "long.wav: is 3.0 hours long; stereo WAV files of 16 bits at 192000 Hz hold 1.6. Cut it or convert it to a lower sample rate.",
  );
});

/** MPEG 2.5 at 8 kHz and 8 kbit/s: a frame of 576 frames of sound has 72 bytes, 0.072 s (ISO/IEC 13818-3). */
test("an MP3 and an AIFF file that unpack to hours are refused before they are decoded", async () => {
  const frame = new Uint8Array(72);
  frame.set([0xff, 0xe3, 0x18, 0xc0]);
  const mp3 = new Uint8Array(72 * 1_000_000);
  for (let at = 0; at < mp3.length; at += 72) mp3.set(frame, at);
  expect(await refusal(mp3, "take.mp3")).toMatch(
    /^unpacks to 20\.0 hours of sound; MP3 is decoded whole, up to 18\.6 /,
  );
  const rate = Uint8Array.of(0x40, 0x0e, 0xbb, 0x80, 0, 0, 0, 0, 0, 0);
  const common = join(Uint8Array.of(0, 1), u32(600_000_000).reverse(), Uint8Array.of(0, 16), rate);
  const body = join(letters("AIFF"), letters("COMM"), u32(18).reverse(), common);
  const aiff = join(letters("FORM"), u32(body.length).reverse(), body);
  expect(await refusal(aiff, "take.aiff")).toMatch(
    /^unpacks to 3\.5 hours of sound; AIFF is decoded whole, up to 3\.1 /,
  );
});

test("an Ogg file that unpacks to hours is refused before it is decoded", async () => {
  const bytes = fixture("tone-997.ogg");
  const last = bytes.lastIndexOf("OggS");
  bytes.writeBigInt64LE(BigInt(5 * 3600 * 44_100), last + 6);
  expect(await refusal(bytes, "take.ogg")).toBe(
    "unpacks to 5.0 hours of sound; Ogg is decoded whole, up to 3.4 hours at 44100 Hz. Convert it to WAV or FLAC, or cut it.",
  );
});

test("a cut WAV says how much is readable, and is used only if allowed", async () => {
  const bytes = floatWav(tone).subarray(0, 44 + 4 * 12_000 + 2);
  expect(await refusal(bytes)).toBe(
    "is cut off or damaged: 0.25 s of 1.00 s can be read. Copy it again, or use --allow-truncated to take what is there.",
  );
  const read = await take(bytes, { allowTruncated: true });
  expectSame(read.samples, tone.subarray(0, 12_000));
  expect(read.notices).toEqual(["cut off or damaged: 0.25 s of 1.00 s can be read and are used"]);
});

const fixture = (name: string) =>
  readFileSync(fileURLToPath(new URL(`../../sound/audio/fixtures/${name}`, import.meta.url)));

/** Made by FFmpeg 5.1: its `sine` source, 997 Hz, 1 s, 44.1 kHz, peak 1/8, in the codec's default setting.
 *  The MP3 encoder scales by 0.95 first, as FFmpeg's own decoder shows. */
test.each([
  ["mp3", 0.95 * 0.125],
  ["ogg", 0.125],
  ["m4a", 0.125],
])("a %s take holds the tone that went in", async (ending, peak) => {
  const read = await take(fixture(`tone-997.${ending}`), { name: `take.${ending}` });
  expect(read).toMatchObject({ rateHz: 44_100, channels: 1, silent: false });
  expectWithin(read.frames, 44_100, 2_500, "frames");
  const middle = read.samples.subarray(10_000, 30_000);
  let [cosine, sinus, energy] = [0, 0, 0];
  for (let n = 0; n < middle.length; n++) {
    const angle = (2 * Math.PI * 997 * n) / 44_100;
    cosine += middle[n] * Math.cos(angle);
    sinus += middle[n] * Math.sin(angle);
    energy += middle[n] ** 2;
  }
  expectWithin((2 * Math.hypot(cosine, sinus)) / middle.length, peak, 0.003, "peak of the 997 Hz part");
  const share = (2 * (cosine ** 2 + sinus ** 2)) / middle.length / energy;
  expect(share).toBeGreaterThan(0.99);
});

test("damaged files of other kinds are refused in one line", async () => {
  expect(await refusal(fixture("tone-997.m4a").subarray(0, 2000), "take.m4a")).toMatch(
    /^looks like M4A but cannot be decoded/,
  );
  expect(await refusal(fixture("tone-997.ogg").subarray(0, 100), "take.ogg")).toMatch(
    /^looks like Ogg but cannot be decoded/,
  );
});

/** AIFF by hand: Apple, Audio Interchange File Format 1.3 (1989); big-endian, the rate an 80-bit float. */
test("an AIFF take, whole and cut", async () => {
  const values = [-8_388_608, -1, 0, 1, 8_388_607, 42];
  const sound = integers(values, 24).map((_, n, all) => all[n - (n % 3) + 2 - (n % 3)]);
  const be32 = (x: number) => u32(x).reverse();
  const rate = Uint8Array.of(0x40, 0x0e, 0xbb, 0x80, 0, 0, 0, 0, 0, 0);
  const common = join(Uint8Array.of(0, 1), be32(values.length), Uint8Array.of(0, 24), rate);
  const parts = [letters("AIFF"), letters("COMM"), be32(18), common, letters("SSND"), be32(8 + sound.length)];
  const body = join(...parts, be32(0), be32(0), sound);
  const bytes = join(letters("FORM"), be32(body.length), body);
  const read = await take(bytes, { name: "take.aiff" });
  expect(read.rateHz).toBe(48_000);
  expect([...read.samples]).toEqual(values.map((k) => k / 8_388_608));
  expect(await refusal(bytes.subarray(0, bytes.length - 6), "take.aiff")).toMatch(
    /^is cut off or damaged: 0\.00 s of/,
  );
});
