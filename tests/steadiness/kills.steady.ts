import { copyFileSync, cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { readTake } from "../../src/node/audio/readTake.js";
import { run } from "../cli/run.js";
import { randomNumbers } from "../signals.js";
import { temporaryFolder } from "../temporaryFolder.js";

const kills = Number(process.env.KILLS ?? 200);
const seed = 31;
const fixtures = fileURLToPath(new URL("../../fixtures/", import.meta.url));
const options = { channel: "mean", allowTruncated: false } as const;

/** SIGKILL cannot be caught: what is true afterwards is true by the order of renames alone. */
test(`${kills} comparisons killed at a random moment leave no half file under a final name`, async () => {
  const folder = temporaryFolder();
  mkdirSync(join(folder, "rigs"));
  mkdirSync(join(folder, "takes"));
  copyFileSync(join(fixtures, "rigs/ferry-road.yaml"), join(folder, "rigs/rig.yaml"));
  copyFileSync(join(fixtures, "takes/ferry-road.wav"), join(folder, "takes/ferry-road.wav"));
  const words = ["compare", "rigs/rig.yaml", "--out", "out", "--force"];

  const begun = performance.now();
  expect((await run(words, { cwd: folder })).status).toBe(0);
  const wholeMs = performance.now() - begun;
  const complete = readdirSync(join(folder, "out")).sort();
  const kept = temporaryFolder();
  cpSync(join(folder, "out"), kept, { recursive: true });
  const report = readFileSync(join(folder, "out/report.json"), "utf8");

  const next = randomNumbers(seed);
  const seen = { ended: 0, old: 0, none: 0, whole: 0 };
  for (let n = 0, killed = 0; killed < kills; n++) {
    // Every second run starts from nothing, the others replace what is there.
    const had = n % 2 === 1;
    rmSync(join(folder, "out"), { recursive: true, force: true });
    if (had) cpSync(kept, join(folder, "out"), { recursive: true });
    const afterMs = next() * 1.1 * wholeMs;
    const { status } = await run(words, {
      cwd: folder,
      onStart: (child) => {
        setTimeout(() => child.kill("SIGKILL"), afterMs);
      },
    });
    if (status === 0) seen.ended++;
    else killed++;
    if (!existsSync(join(folder, "out"))) {
      // Between two renames the older results stand under another name; the next run brings them back.
      if (had) seen.old++;
      else seen.none++;
      continue;
    }
    const where = `kill ${n} of seed ${seed}, after ${afterMs.toFixed(0)} of ${wholeMs.toFixed(0)} ms`;
    const names = readdirSync(join(folder, "out")).filter((name) => !name.startsWith("."));
    expect(names.sort(), where).toEqual(complete.filter((name) => !name.startsWith(".")));
    expect(readFileSync(join(folder, "out/report.json"), "utf8") === report, where).toBe(true);
    for (const name of names.filter((file) => file.endsWith(".wav"))) {
      await readTake(join(folder, "out", name), options);
    }
    seen.whole++;
  }
  const last = await run(words, { cwd: folder });
  expect(last.status, last.err).toBe(0);
  expect(readdirSync(folder).sort()).toEqual(["out", "rigs", "takes"]);
  console.log(
    `${kills} kills over ${(wholeMs / 1000).toFixed(1)} s: ${seen.whole} left whole results (${seen.ended} of them ended before the kill), ` +
      `${seen.none} nothing, ${seen.old} older results under another name; no half file; nothing left after the next run`,
  );
});
