import { execFile } from "node:child_process";
import { existsSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { buildSync } from "esbuild";
import { expect, test } from "vitest";
import { newMeeting } from "../../../src/node/threads/meeting.js";
import { openPool } from "../../../src/node/threads/pool.js";
import { encodeWav } from "../../../src/sound/audio/encodeWav.js";
import { UserError } from "../../../src/text/userError.js";
import { sine } from "../../signals.js";
import { temporaryFolder } from "../../temporaryFolder.js";
import type { PartOfTest } from "./partWorker.js";

function openParts(count: number) {
  const outfile = join(temporaryFolder(), "worker.mjs");
  const entry = fileURLToPath(new URL("partWorker.ts", import.meta.url));
  buildSync({ entryPoints: [entry], outfile, bundle: true, platform: "node", format: "esm" });
  const here = async (): Promise<number> => 0;
  const heapLimits = { maxYoungGenerationSizeMb: 4, maxOldGenerationSizeMb: 16 };
  return openPool<PartOfTest, number>(outfile, here, count, { heapLimits });
}

/** Parts that meet, one of which may do something else; settled when all have ended. */
async function endOf(does: PartOfTest["does"]): Promise<unknown> {
  const pool = openParts(2);
  const meeting = newMeeting(1);
  const parts = (["meets", does] as const).map((each) => ({ does: each, meeting, parties: 2 }));
  try {
    return await Promise.all(parts.map((part) => pool.run(part)));
  } catch (error) {
    return error;
  } finally {
    await pool.close();
  }
}

test("parts that meet all leave with the largest figure", async () => {
  expect(await endOf("meets")).toEqual([1, 1]);
});

test("a part that fails ends the one that waits for it, and its fault keeps its fields", async () => {
  const fault = await endOf("fails");
  expect(fault).toBeInstanceOf(UserError);
  expect(fault).toMatchObject({ faults: [{ file: "a.wav", line: 3, message: "is full." }], exitStatus: 1 });
});

/** Names of errors: ECMA-262, and Node's own list of error codes. */
test.each([
  ["breaks", { name: "RangeError", message: "a bug" }],
  ["exits", { message: "a thread ended by itself, status 7" }],
  ["eats memory", { code: "ERR_WORKER_OUT_OF_MEMORY" }],
] as const)("a part that %s ends the one that waits for it", async (does, error) => {
  expect(await endOf(does)).toMatchObject(error);
});

test("a thread that cannot begin fails every job, and a pool that is over takes no more", async () => {
  const none = async () => 0;
  const pool = openPool<number, number>("/no/such/worker.js", none, 2);
  const ends = await Promise.allSettled([pool.run(1), pool.run(2), pool.run(3)]);
  expect(ends.map(({ status }) => status)).toEqual(["rejected", "rejected", "rejected"]);
  await pool.close();
  await expect(pool.run(4)).rejects.toThrow("Cannot find module");
});

test("closing ends threads in the middle of their work, and what they did is told as not done", async () => {
  const pool = openParts(2);
  const waiting = pool.run({ does: "meets", meeting: newMeeting(1), parties: 2 });
  const ended = expect(waiting).rejects.toThrow("the threads were closed");
  await pool.close();
  await ended;
});

test("0 threads is the calling one", async () => {
  const pool = openPool("/never/read.js", async (x: number) => 2 * x, 0);
  expect([pool.count, await pool.run(21)]).toEqual([1, 42]);
  await pool.close();
});

/** Node refuses such a flag in a thread that is a file: `ERR_INPUT_TYPE_NOT_ALLOWED`. */
test("threads begin in a process whose script was given in words", async () => {
  const [folder, here] = [temporaryFolder(), (path: string) => new URL(`../../../${path}`, import.meta.url)];
  const take = join(folder, "take.wav");
  const sound = sine({ frequencyHz: 200, rateHz: 8000, lengthSeconds: 0.2 });
  writeFileSync(take, encodeWav({ channels: [sound], rateHz: 8000 }, 16));
  const words = [fileURLToPath(here("fixtures/rigs/quay-piano.yaml")), take, "--out", join(folder, "out")];
  const argv = ["node", "splitsum", "compare", ...words, "--routings", "series-mono", "--quiet"];
  const main = JSON.stringify(here("dist/cli/main.js").href);
  const script = `process.argv = ${JSON.stringify(argv)}; await import(${main});`;
  await promisify(execFile)(process.execPath, ["--input-type=module", "--eval", script]);
  expect(existsSync(join(folder, "out", "report.json"))).toBe(true);
});
