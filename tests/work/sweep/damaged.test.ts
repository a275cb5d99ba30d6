import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { merge } from "../../../src/node/sweep/merge.js";
import { UserError } from "../../../src/text/userError.js";
import { simpleRig } from "../../rigs.js";
import { randomNumbers } from "../../signals.js";
import { temporaryFolder } from "../../temporaryFolder.js";
import { smallSweep, tables, values } from "./smallSweep.js";

const rig = simpleRig();
const asked = {
  groups: [[values("mixer.returnDb", -18, -12, -6, 0)], [values("Echo.delayMs", 90, 140)]],
  request: { routings: ["parallel", "dual-mono"] },
  best: 1,
};

/** Every way of damage that leaves a file of whole lines: by `--resume` and by `merge` the same. */
test("a results file that is not as a sweep wrote it is refused, line by line", async () => {
  const folder = temporaryFolder();
  const file = join(folder, "results.jsonl");
  await smallSweep(rig, folder, asked);
  const text = readFileSync(file, "utf8");
  const lines = text.split("\n").slice(0, -1);
  const kinds = lines.map((line) => /"(figures|unit|rendered|splitsumSweep)":/.exec(line)?.[1]);
  const result = kinds.indexOf("figures");
  const next = randomNumbers(11);
  const without = (n: number) => lines.filter((_, k) => k !== n);
  const changedDigit = lines.with(
    result,
    lines[result].replace(/\.(\d)/, (_, d) => `.${(Number(d) + 1) % 10}`),
  );
  const flipped = Array.from({ length: 20 }, () => {
    const n = Math.floor(next() * lines.length);
    const at = Math.floor(next() * lines[n].length);
    const other = String.fromCharCode(lines[n].charCodeAt(at) ^ 1);
    return lines.with(n, `${lines[n].slice(0, at)}${other}${lines[n].slice(at + 1)}`);
  });
  const doubled = lines.toSpliced(result, 0, lines[result]);
  const swapped = lines.with(result, lines[result + 1]);
  for (const damaged of [without(result), changedDigit, doubled, swapped, ...flipped]) {
    writeFileSync(file, `${damaged.join("\n")}\n`);
    await expect(smallSweep(rig, folder, { ...asked, resume: true })).rejects.toThrow(UserError);
    const files = [file];
    await expect(merge({ files, outDir: folder, wishes: null, force: true })).rejects.toThrow(UserError);
  }
});

test("cut off where the message says, it goes on to the same tables", async () => {
  const folder = temporaryFolder();
  const file = join(folder, "results.jsonl");
  await smallSweep(rig, folder, asked);
  const whole = tables(folder);
  const lines = readFileSync(file, "utf8").split("\n");
  const last = lines.findLastIndex((line) => line.includes('"by":'));
  writeFileSync(file, lines.with(last, lines[last].replace('"draw":0', '"draw":1')).join("\n"));
  const said = await smallSweep(rig, folder, { ...asked, resume: true }).catch(
    (error: Error) => error.message,
  );
  const behind = Number(
    /damaged\. Cut it off behind line (\d+) and go on by sweep --resume/.exec(`${said}`)?.[1],
  );
  expect(behind).toBeLessThan(last + 1);
  writeFileSync(file, `${lines.slice(0, behind).join("\n")}\n`);
  await smallSweep(rig, folder, { ...asked, resume: true });
  expect(tables(folder)).toEqual(whole);
});

test("a file that a run left before its first line was whole is begun anew, and nothing else that is short", async () => {
  const folder = temporaryFolder();
  const file = join(folder, "results.jsonl");
  await smallSweep(rig, folder, asked);
  const [whole, text] = [tables(folder), readFileSync(file, "utf8")];
  for (const length of [0, 5, 200]) {
    writeFileSync(file, text.slice(0, length));
    await smallSweep(rig, folder, { ...asked, resume: length === 5, force: length !== 5 });
    expect(tables(folder)).toEqual(whole);
  }
  writeFileSync(file, "mine");
  for (const how of [{ resume: true }, { force: true }]) {
    await expect(smallSweep(rig, folder, { ...asked, ...how })).rejects.toThrow(UserError);
    expect(readFileSync(file, "utf8")).toBe("mine");
  }
});
