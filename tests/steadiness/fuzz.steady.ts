import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, expect, test } from "vitest";
import { readClip } from "../../src/node/audio/readClip.js";
import { readTake } from "../../src/node/audio/readTake.js";
import { writeClip } from "../../src/node/audio/writeClip.js";
import { parseRig } from "../../src/rig/file/parseRig.js";
import { routingsOf } from "../../src/rig/routings/routingsOf.js";
import type { Clip } from "../../src/sound/audio/clip.js";
import { encodeFlac } from "../../src/sound/audio/encodeFlac.js";
import { UserError } from "../../src/text/userError.js";
import { align } from "../../src/work/capture/align.js";
import { makeTone } from "../../src/work/capture/makeTone.js";
import { responseOf } from "../../src/work/capture/responseOf.js";
import { noise, randomNumbers } from "../signals.js";

const scale = Number(process.env.FUZZ ?? 1);
const seed = 77;
const folder = mkdtempSync(join(tmpdir(), "splitsum-fuzz-"));
afterAll(() => rmSync(folder, { recursive: true }));
const rigs = ["ferry-road", "mill-loft", "quay-piano"].map((name) =>
  readFileSync(fileURLToPath(new URL(`../../fixtures/rigs/${name}.yaml`, import.meta.url))),
);

interface Counts {
  bytes: number;
  read: number;
  refused: number;
  slowestMs: number;
}

/**
 * Mutates `bytes` in `cases` ways of `each` bytes and gives every one to `use`: a result, or an error that a person can
 * act on. Anything else fails with the seed.
 */
async function fuzz(
  what: string,
  originals: readonly Uint8Array[],
  { cases, each }: { cases: number; each: number },
  use: (bytes: Uint8Array) => unknown,
): Promise<void> {
  const counts: Counts = { bytes: 0, read: 0, refused: 0, slowestMs: 0 };
  const next = randomNumbers(seed);
  const most = Math.ceil(cases * scale);
  for (let n = 0; n < most; n++) {
    const bytes = mutated(originals[n % originals.length], each, n, next);
    counts.bytes += each;
    const begun = performance.now();
    try {
      await use(bytes);
      counts.read++;
    } catch (error) {
      if (!(error instanceof UserError)) {
        expect.fail(
          `${what}, case ${n} of seed ${seed}: ${error instanceof Error ? error.stack : String(error)}`,
        );
      }
      expect(error.message.length, `${what}, case ${n}: an empty message`).toBeGreaterThan(10);
      counts.refused++;
    }
    counts.slowestMs = Math.max(counts.slowestMs, performance.now() - begun);
  }
  console.log(
    `${what}: ${most} cases, ${counts.bytes} bytes mutated; ${counts.read} read, ${counts.refused} refused, no crash; ` +
      `slowest ${counts.slowestMs.toFixed(0)} ms, resident ${(process.memoryUsage().rss / 2 ** 20).toFixed(0)} MB`,
  );
}

/** Bytes set at random, bits turned, runs copied elsewhere, the end cut off; the head is hit in half of all cases. */
function mutated(original: Uint8Array, each: number, n: number, next: () => number): Uint8Array {
  const bytes = Uint8Array.from(original);
  const below = (count: number) => Math.floor(next() * count);
  const reach = n % 2 === 0 ? Math.min(bytes.length, 256) : bytes.length;
  for (let k = 0; k < each; k++) {
    const at = below(reach);
    const kind = n % 3;
    if (kind === 0) bytes[at] = below(256);
    else if (kind === 1) bytes[at] ^= 1 << below(8);
    else bytes[at] = bytes[below(bytes.length)];
  }
  return n % 7 === 0 ? bytes.subarray(0, below(bytes.length)) : bytes;
}

test("rig files", async () => {
  await fuzz("rig reader", rigs, { cases: 20_000, each: 10 }, (bytes) => {
    const rig = parseRig(new TextDecoder().decode(bytes), "rig.yaml");
    return routingsOf(rig);
  });
});

const takeFile = join(folder, "take");
const readBytes = (bytes: Uint8Array) => {
  writeFileSync(takeFile, bytes);
  return readTake(takeFile, { channel: "mean", allowTruncated: true });
};

test("WAV files", async () => {
  const originals = ([16, 24, 32] as const).map((bits) => {
    const file = join(folder, `original-${bits}.wav`);
    const channels = [noise({ seed: 1, frames: 300 }), noise({ seed: 2, frames: 300 })];
    writeClip(file, { rateHz: 48_000, channels }, { bits, force: true });
    return readFileSync(file);
  });
  await fuzz("WAV reader", originals, { cases: 20_000, each: 20 }, readBytes);
});

test("FLAC files", async () => {
  const flac = await encodeFlac([noise({ seed: 3, frames: 5000 })], 48_000);
  await fuzz("FLAC reader", [flac], { cases: 2000, each: 40 }, readBytes);
});

test("recordings of the tone", async () => {
  const settings = { lengthSeconds: 1, rateHz: 44_100, repeats: 1 };
  const { clip } = makeTone(settings);
  const file = join(folder, "tone.wav");
  writeClip(file, clip, { bits: 16, force: true });
  const original = readFileSync(file);
  await fuzz("capture response", [original], { cases: 200, each: 1000 }, async (bytes) =>
    responseOf(await asClip(bytes), settings, {}),
  );
});

test("loops of a take", async () => {
  const dry = { rateHz: 44_100, channels: [noise({ seed: 6, frames: 44_100 })] };
  const file = join(folder, "loop.wav");
  writeClip(file, dry, { bits: 16, force: true });
  const original = readFileSync(file);
  await fuzz("capture align", [original], { cases: 200, each: 1000 }, async (bytes) =>
    align(dry, await asClip(bytes)),
  );
});

async function asClip(bytes: Uint8Array): Promise<Clip> {
  writeFileSync(takeFile, bytes);
  return readClip(takeFile, { allowTruncated: true });
}
