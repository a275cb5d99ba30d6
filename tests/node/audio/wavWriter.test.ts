import { existsSync, mkdirSync, readFileSync } from "node:fs";
import { join as path } from "node:path";
import { expect, test } from "vitest";
import wavEncoder from "wav-encoder";
import { readClip } from "../../../src/node/audio/readClip.js";
import { openWav, type WavWriter } from "../../../src/node/audio/wavWriter.js";
import { writeClip } from "../../../src/node/audio/writeClip.js";
import { encodeWav } from "../../../src/sound/audio/encodeWav.js";
import { UserError } from "../../../src/text/userError.js";
import { noise } from "../../signals.js";
import { expectSame } from "../../sound/audio/expectSame.js";
import { temporaryFolder } from "../../temporaryFolder.js";

const left = noise({ seed: 21, frames: 100_003, rms: 0.1 });
const right = noise({ seed: 22, frames: 100_003, rms: 0.1 });
const stereo = { rateHz: 48_000, channels: 2 } as const;

function written(format: Parameters<typeof openWav>[1], fill: (wav: WavWriter) => void): string {
  const file = path(temporaryFolder(), "a.wav");
  const wav = openWav(file, format);
  fill(wav);
  wav.close();
  return file;
}

test("24-bit stereo is byte for byte what `wav-encoder` makes of the same sound", () => {
  const file = written({ ...stereo, bits: 24 }, (wav) => wav.write([left, right], left.length, 1));
  const theirs = wavEncoder.encode.sync(
    { sampleRate: 48_000, channelData: [left, right] },
    { bitDepth: 24, symmetric: true },
  );
  expect(readFileSync(file).equals(new Uint8Array(theirs))).toBe(true);
});

test.each([16, 24, 32] as const)("%i bits: blocks of any size give the same bytes", (bits) => {
  const whole = written({ ...stereo, bits }, (wav) => wav.write([left, right], 5000, 0.7));
  const pieces = written({ ...stereo, bits }, (wav) => {
    for (let start = 0, size = 1; start < 5000; start += size, size = Math.min(5000 - start, size * 2 + 1)) {
      wav.write([left.subarray(start), right.subarray(start)], size, 0.7);
    }
  });
  expect(readFileSync(pieces).equals(readFileSync(whole))).toBe(true);
});

test.each([24, 32] as const)("%i bits read back as written, gain applied", async (bits) => {
  const file = written({ rateHz: 44_100, channels: 1, bits }, (wav) => wav.write([left], left.length, 0.5));
  const { channels, rateHz } = await readClip(file, { allowTruncated: false });
  expect(rateHz).toBe(44_100);
  const step = bits === 24 ? 2 ** 23 : 2 ** 60;
  expectSame(
    channels[0],
    left.map((x) => Math.floor(x * 0.5 * step + 0.5) / step),
  );
});

test("an odd number of bytes gets its pad byte and is read back", async () => {
  const file = written({ rateHz: 48_000, channels: 1, bits: 24 }, (wav) =>
    wav.write([Float32Array.of(0.5)], 1, 1),
  );
  expect(readFileSync(file).length).toBe(48);
  expect((await readClip(file, { allowTruncated: false })).channels).toEqual([Float32Array.of(0.5)]);
});

test("what goes beyond full scale is held at it and counted in frames", async () => {
  const file = path(temporaryFolder(), "a.wav");
  const wav = openWav(file, { ...stereo, bits: 24 });
  wav.write([Float32Array.of(0.375, 0.6, -0.6, 0), Float32Array.of(0, 0.7, 0, 0)], 4, 2);
  expect(wav.clippedFrames).toBe(2);
  wav.close();
  const top = 1 - 2 ** -23;
  const expected = [
    [0.75, top, -1, 0],
    [0, top, 0, 0],
  ].map((samples) => Float32Array.from(samples));
  expect((await readClip(file, { allowTruncated: false })).channels).toEqual(expected);
});

test("a sample that is not finite is a bug, told with its place", () => {
  const wav = openWav(path(temporaryFolder(), "a.wav"), { ...stereo, bits: 16 });
  wav.write([left, right], 20_000, 1);
  const broken = Float32Array.of(0, 0, Number.NaN);
  expect(() => wav.write([new Float32Array(3), broken], 3, 1)).toThrow(
    "encode: sample 20002 of channel 1 is NaN; render finite sound",
  );
});

test("what would not fit into 4 GiB is refused beforehand, and nothing is written", () => {
  const file = path(temporaryFolder(), "a.wav");
  expect(() => openWav(file, { ...stereo, bits: 24, frames: 5 * 3600 * 48_000 })).toThrow(
    `${file}: would be larger than 4 GiB; a WAV file of this kind holds 4.1 hours.`,
  );
  expect(existsSync(file)).toBe(false);
});

test("a disk that is full, a folder that is missing and a file that exists are told in one line", () => {
  const folder = temporaryFolder();
  expect(() => openWav(path(folder, "no", "a.wav"), { ...stereo, bits: 24 })).toThrow(
    /no such file or folder/,
  );
  mkdirSync(path(folder, "a.wav"));
  expect(() => openWav(path(folder, "a.wav"), { ...stereo, bits: 24 })).toThrow(UserError);
});

test("short clips go through the library: 24 bits and float exact, never half, never over what is there", async () => {
  const file = path(temporaryFolder(), "response.wav");
  const clip = {
    rateHz: 96_000,
    channels: [Float32Array.of(-1, -0.25, 0, 2 ** -23), Float32Array.of(0, 0, 0.5, 0.75)],
  };
  for (const bits of [24, 32] as const) {
    writeClip(file, clip, { bits, force: bits === 32 });
    expect(await readClip(file, { allowTruncated: false })).toMatchObject(clip);
  }
  expect(() => writeClip(file, clip, { bits: 24, force: false })).toThrow(/exists already/);
  expect(() => encodeWav({ rateHz: 48_000, channels: [Float32Array.of(0, 1.25)] }, 24)).toThrow(
    /sample 1 is 1\.25/,
  );
  expect(() => encodeWav({ rateHz: 48_000, channels: [Float32Array.of(Number.NaN)] }, 32)).toThrow(
    /sample 0 is NaN/,
  );
});
