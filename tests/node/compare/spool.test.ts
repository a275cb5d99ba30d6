import { readdirSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { expect, test } from "vitest";
import { heldBytesEach, readSpool, SpoolWriter } from "../../../src/node/compare/spool.js";
import { noise } from "../../signals.js";
import { temporaryFolder } from "../../temporaryFolder.js";

/** The definition: what went in, in blocks of any size, comes out. */
const blocks = fc.array(fc.integer({ min: 1, max: 40_000 }), { minLength: 1, maxLength: 6 });

test.each([
  ["in memory", 1e9, 0],
  ["on disk", 0, 1],
])("a render comes back as it was, %s", (_where, heldBytes, files) => {
  fc.assert(
    fc.property(blocks, (sizes) => {
      const folder = temporaryFolder();
      const { left, right, spool } = spooled(join(folder, "a.f32"), sizes, heldBytes);
      expect(readdirSync(folder)).toHaveLength(files);
      expect(comesBack(spool, [left, right])).toBe(true);
    }),
    { numRuns: 20 },
  );
});

test("a render that outgrows its memory goes to disk whole", () => {
  const folder = temporaryFolder();
  // Two chunks of 16 384 frames fit.
  const { left, right, spool } = spooled(join(folder, "a.f32"), [20_000, 20_000, 5000], 300_000);
  expect(spool).toEqual({ path: join(folder, "a.f32") });
  expect(comesBack(spool, [left, right])).toBe(true);
});

test("renders of a take that is longer than what they may hold go to disk from the start", () => {
  const takeFrames = 60 * 48_000;
  expect(9 * heldBytesEach(9, takeFrames)).toBe(256e6);
  expect(heldBytesEach(9, 2 * takeFrames)).toBe(0);
});

function spooled(path: string, sizes: readonly number[], heldBytes: number) {
  const frames = sizes.reduce((sum, size) => sum + size, 0);
  const [left, right] = [1, 2].map((seed) => noise({ seed, frames, rms: 0.1 }));
  const writer = new SpoolWriter(path, heldBytes);
  let at = 0;
  for (const size of sizes) {
    writer.write(left.subarray(at, at + size), right.subarray(at, at + size), size);
    at += size;
  }
  writer.close();
  return { left, right, spool: writer.spool };
}

function comesBack(spool: SpoolWriter["spool"], [left, right]: readonly Float32Array[]): boolean {
  let at = 0;
  let isSame = true;
  readSpool(spool, left.length, ([l, r], count) => {
    for (let n = 0; n < count; n++) isSame &&= l[n] === left[at + n] && r[n] === right[at + n];
    at += count;
  });
  return isSame && at === left.length;
}
