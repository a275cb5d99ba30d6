import { existsSync, readdirSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import {
  closeTake,
  mostHeldFrames,
  readAnyTake,
  readTake,
  samplesOf,
} from "../../../src/node/audio/readTake.js";
import { readerOf } from "../../../src/node/audio/takeSpool.js";
import { channelsOf, monoOf } from "../../../src/sound/audio/takeSource.js";
import { noise, randomNumbers } from "../../signals.js";
import { floats, wavFile } from "../../sound/audio/wavBytes.js";
import { temporaryFolder } from "../../temporaryFolder.js";

const options = { channel: "mean", allowTruncated: false } as const;
const frames = 150_000;

async function bothWays() {
  const file = join(temporaryFolder(), "take.wav");
  const sound = floats(noise({ seed: 5, frames: 2 * frames, rms: 0.1 }));
  writeFileSync(file, wavFile({ tag: 3, bits: 32, channels: 2, sound }));
  const held = await readTake(file, options);
  const spooled = await readAnyTake(file, options, frames - 1);
  if (spooled.samples !== null) throw new Error("the take was held in memory");
  return { file, held, spooled };
}

const bytesOf = ({ buffer, byteOffset, byteLength }: Float32Array) =>
  Buffer.from(buffer, byteOffset, byteLength);

/** A law that must hold: where a take lies does not show in it. */
test("a take on disk is the take in memory, from any place on", async () => {
  const { held, spooled } = await bothWays();
  expect(samplesOf(spooled)).toEqual(held.samples);
  const { samples, spool, ...facts } = spooled;
  const { samples: _, ...heldFacts } = held;
  expect(facts).toEqual(heldFacts);

  const reader = readerOf(channelsOf(spool)[0]);
  const next = randomNumbers(3);
  for (let k = 0; k < 50; k++) {
    const start = Math.floor(next() * frames);
    const count = Math.floor(next() * (frames - start));
    const into = new Float32Array(count);
    reader.read(start, count, into);
    const expected = monoOf(held.samples).slice(start, start + count);
    expect(Buffer.compare(bytesOf(into), bytesOf(expected)), `${count} frames from ${start}`).toBe(0);
  }
});

test("a closed take gives nothing any more, and a refused one leaves no file open", async () => {
  const { spooled } = await bothWays();
  closeTake(spooled);
  expect(() => samplesOf(spooled)).toThrow(/EBADF/);

  // Where a system does not tell its open files, only the refusal is looked at.
  const open = () => (existsSync("/proc/self/fd") ? readdirSync("/proc/self/fd").length : 0);
  const file = join(temporaryFolder(), "nan.wav");
  const sound = floats(Float32Array.from({ length: 2000 }, (_, n) => (n === 1500 ? Number.NaN : 0.1)));
  writeFileSync(file, wavFile({ tag: 3, bits: 32, sound }));
  const before = open();
  await expect(readAnyTake(file, options, 100)).rejects.toThrow(/not a number/);
  expect(open()).toBe(before);
});

test("takes up to the limit are held", async () => {
  const { file } = await bothWays();
  expect((await readAnyTake(file, options, frames)).samples).toHaveLength(frames);
  expect(mostHeldFrames).toBeGreaterThan(frames);
});

test("nothing of a spool stays in the folder for passing files", async () => {
  await bothWays();
  expect(readdirSync(tmpdir()).filter((name) => name.startsWith("splitsum-take-"))).toEqual([]);
});
