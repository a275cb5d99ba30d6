import { writeFileSync } from "node:fs";
import { join as path } from "node:path";
import { expect, test } from "vitest";
import { OfflineAudioContext } from "web-audio-api";
import { readClip } from "../../src/node/audio/readClip.js";
import {
  chunk,
  floats,
  integers,
  join,
  letters,
  u32,
  type WavParts,
  wavFile,
} from "../sound/audio/wavBytes.js";
import { temporaryFolder } from "../temporaryFolder.js";

/**
 * The WAVE format: Microsoft and IBM, Multimedia Programming Interface and Data Specifications 1.0 (1991); extensible:
 * WAVEFORMATEXTENSIBLE; float: format tag 3. An n-bit integer k means k / 2^(n-1): two's complement, closed form.
 */
async function read(parts: WavParts) {
  const file = path(temporaryFolder(), "a.wav");
  writeFileSync(file, wavFile(parts));
  const clip = await readClip(file, { allowTruncated: false });
  return { ...clip, values: clip.channels.map((samples) => [...samples]) };
}
const edges = (bits: number) => {
  const half = 2 ** (bits - 1);
  return [-half, -half + 1, -1, 0, 1, half / 2, half - 1];
};
const asFloats = (values: readonly number[], bits: number) =>
  values.map((k) => Math.fround(k / 2 ** (bits - 1)));

test.each([
  [8, undefined],
  [16, undefined],
  [24, undefined],
  [32, undefined],
  [16, 1],
  [24, 1],
  [32, 1],
])(
  "%i-bit integers (extensible tag %s) keep their value; full-scale negative is exactly -1",
  async (bits, subTag) => {
    const parts = { bits, sound: integers(edges(bits), bits), ...(subTag && { subTag }) };
    const { values } = await read(parts);
    expect(values).toEqual([asFloats(edges(bits), bits)]);
    expect(values[0][0]).toBe(-1);
  },
);

test.each([32, 64] as const)(
  "%i-bit float, plain and extensible, keeps its value and goes over full scale",
  async (bits) => {
    const samples = [-1.5, -1, -1e-20, 0, 2 ** -24, 0.1, 1, 3];
    const expected = samples.map(Math.fround);
    expect((await read({ tag: 3, bits, sound: floats(samples, bits) })).values).toEqual([expected]);
    expect((await read({ subTag: 3, bits, sound: floats(samples, bits) })).values).toEqual([expected]);
  },
);

test.each([8, 16, 24, 32])("stereo %i-bit frames go left, right", async (bits) => {
  const { values } = await read({ channels: 2, bits, sound: integers([1, -2, 3, -4, 5, -6], bits) });
  expect(values).toEqual([asFloats([1, 3, 5], bits), asFloats([-2, -4, -6], bits)]);
});

test("unknown chunks are skipped, with the pad byte after an odd size, also far ahead of the sound", async () => {
  const { values } = await read({
    bits: 24,
    sound: integers([1, 2, 3], 24),
    first: chunk("JUNK", new Uint8Array(28)),
    before: join(
      chunk("LIST", new Uint8Array(7)),
      chunk("bext", new Uint8Array(70_001)),
      chunk("fact", u32(3)),
    ),
    after: chunk("id3 ", letters("no sound")),
  });
  expect(values).toEqual([asFloats([1, 2, 3], 24)]);
});

test.each([8_000, 11_025, 44_100, 69_313, 96_000, 192_000])("%i Hz is kept", async (rateHz) => {
  expect((await read({ bits: 16, rateHz, sound: integers([5], 16) })).rateHz).toBe(rateHz);
});

/** EBU Tech 3306 (from memory): ds64 holds RIFF, data and sample counts of 64 bits; the 32-bit ones are 0xFFFFFFFF. */
test.each(["RF64", "BW64"])("%s: the size stands in ds64", async (riff) => {
  const sizes = join(u32(0), u32(0), u32(6), u32(0), u32(2), u32(0), u32(0));
  const parts = {
    riff,
    bits: 24,
    sound: integers([7, -7], 24),
    riffBytes: 0xffffffff,
    dataBytes: 0xffffffff,
  };
  const { values, notices } = await read({
    ...parts,
    first: chunk("ds64", sizes),
    after: chunk("LIST", letters("abcd")),
  });
  expect(values).toEqual([asFloats([7, -7], 24)]);
  expect(notices).toEqual([]);
});

test("a stream's header (size 0xFFFFFFFF) and an unfinished recording (size 0) are read to the end, and told", async () => {
  for (const sizes of [{ dataBytes: 0xffffffff }, { dataBytes: 0, riffBytes: 36 }]) {
    const { values, notices } = await read({ bits: 16, sound: integers([1, 2, 3], 16), ...sizes });
    expect(values).toEqual([asFloats([1, 2, 3], 16)]);
    expect(notices).toEqual(["the header does not say how long it is; all 0.00 s in the file are used"]);
  }
});

/** An independent decoder: `web-audio-api`. It divides by 2^(n-1) below zero and by 2^(n-1) - 1 above, so a 24-bit
 *  sample may differ by one part in 2^23 of itself. */
test("agrees with an independent decoder on 24-bit stereo", async () => {
  const values = Array.from({ length: 2000 }, (_, n) => Math.round(8_388_607 * Math.sin(n * n * 0.01)));
  const parts = { channels: 2, bits: 24, subTag: 1, sound: integers(values, 24) };
  const ours = await read(parts);
  const context = new OfflineAudioContext({ numberOfChannels: 1, length: 1, sampleRate: 48_000 });
  const theirs = await context.decodeAudioData(wavFile(parts));
  for (const channel of [0, 1]) {
    const off = theirs.getChannelData(channel).map((x, n) => Math.abs(x - ours.values[channel][n]));
    expect(Math.max(...off)).toBeLessThanOrEqual(2 ** -23);
  }
});
