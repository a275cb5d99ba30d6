import { existsSync, readdirSync, readFileSync, truncateSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { merge } from "../../../src/node/sweep/merge.js";
import { crc32 } from "../../../src/text/crc32.js";
import { UserError } from "../../../src/text/userError.js";
import { firstOf } from "../../longForm.js";
import { simpleRig } from "../../rigs.js";
import { randomNumbers } from "../../signals.js";
import { temporaryFolder } from "../../temporaryFolder.js";
import { type SmallSweep, smallSweep, tables, values } from "./smallSweep.js";

/** Mixer settings of some routings, renders of others, second units, and a wish that takes a render. */
const mixed: SmallSweep = {
  groups: [
    [values("Echo.delayMs", 90, 140, 230)],
    [values("mixer.returnDb", -18, -9, 0), values("mixer.returnPan", -1, 0, 0.5)],
    [values("Echo.mix", 0, 0.3)],
  ],
  request: { tolerancePercent: 5 },
  wishes: { want: ["sideShare>=0.1", "truePeakDbtp<=-1.5"], most: [], least: ["foldDownLossDb"] },
};
const rig = simpleRig();

test("parts, joined, are the whole, to the byte", async () => {
  const [whole, parts, joined] = [temporaryFolder(), temporaryFolder(), temporaryFolder()];
  await smallSweep(rig, whole, mixed);
  for (const part of [2, 3, 1]) {
    const { report, files } = await smallSweep(rig, parts, { ...mixed, shard: { part, of: 3 } });
    expect(report).toBeNull();
    expect(files).toEqual([`part-${part}-of-3.jsonl`]);
  }
  const files = readdirSync(parts).filter((name) => name.endsWith(".jsonl"));
  // Whatever the order in which they are named.
  for (const order of [files, [...files].reverse()]) {
    await merge({ files: order.map((name) => join(parts, name)), outDir: joined, wishes: null, force: true });
    expect(tables(joined)).toEqual(tables(whole));
    expect(readFileSync(join(joined, "spread.csv"))).toEqual(readFileSync(join(whole, "spread.csv")));
  }
});

test("a sweep of a mixer alone is shared out as evenly as its settings are", async () => {
  const [whole, parts] = [temporaryFolder(), temporaryFolder()];
  const mixer: SmallSweep = {
    groups: [[values("mixer.returnDb", -18, -15, -12, -9, -6, -3, 0)]],
    request: { routings: ["parallel", "parallel-after"] },
  };
  await smallSweep(rig, whole, mixer);
  const done = [];
  for (const part of [1, 2, 3]) done.push(await smallSweep(rig, parts, { ...mixer, shard: { part, of: 3 } }));
  const computed = done.map((part) => part.computed);
  expect(computed.reduce((sum, count) => sum + count, 0)).toBe(14);
  expect(Math.max(...computed) - Math.min(...computed)).toBeLessThanOrEqual(4);
  const files = [1, 2, 3].map((part) => join(parts, `part-${part}-of-3.jsonl`));
  await merge({ files, outDir: parts, wishes: null, force: true });
  expect(tables(parts)).toEqual(tables(whole));
});

test("cut off anywhere, a sweep goes on to the same bytes, and nothing is done twice", async () => {
  const whole = temporaryFolder();
  const { computed: all } = await smallSweep(rig, whole, mixed);
  const bytes = readFileSync(join(whole, "results.jsonl"));
  const head = bytes.indexOf("\n") + 1;
  const next = randomNumbers(5);
  const cuts = firstOf([1, 2, 3, 4, 5, 6], 2).length;
  for (let run = 0; run < cuts; run++) {
    const folder = temporaryFolder();
    const file = join(folder, "results.jsonl");
    writeFileSync(file, bytes);
    // One in each part of the file.
    const length = head + Math.floor(((run + next()) / cuts) * (bytes.length - head));
    truncateSync(file, length);
    const closed = unitsIn(readFileSync(file, "utf8"));
    const { computed, resumed } = await smallSweep(rig, folder, { ...mixed, resume: true });
    expect(tables(folder), `cut at byte ${length}`).toEqual(tables(whole));
    expect(computed + resumed).toBe(all);
    const units = unitsIn(readFileSync(file, "utf8"));
    expect(new Set(units).size).toBe(units.length);
    // What was complete stands where it stood.
    expect(units.slice(0, closed.length)).toEqual(closed);
  }
});

test("a sweep that is complete is only written anew", async () => {
  const folder = temporaryFolder();
  await smallSweep(rig, folder, mixed);
  const before = tables(folder);
  const { computed } = await smallSweep(rig, folder, { ...mixed, resume: true });
  expect(computed).toBe(0);
  expect(tables(folder)).toEqual(before);
});

test("neither a file of results nor a sweep of other inputs is touched unasked", async () => {
  const folder = temporaryFolder();
  await smallSweep(rig, folder, mixed);
  const before = readFileSync(join(folder, "results.jsonl"));
  await expect(smallSweep(rig, folder, mixed)).rejects.toThrow(
    /results\.jsonl: is there already\. Go on with it by/,
  );
  const others: [SmallSweep, RegExp][] = [
    [
      { ...mixed, request: { tolerancePercent: 6 } },
      /is of another sweep: what is varied, the routings or the tail differs/,
    ],
    [{ ...mixed, wishes: { want: [], most: [], least: [] } }, /was begun with other wishes/],
  ];
  for (const [other, says] of others)
    await expect(smallSweep(rig, folder, { ...other, resume: true })).rejects.toThrow(says);
  const louder = simpleRig({ mixer: { dryDb: -1, returnDb: null, returnPan: 0 } });
  await expect(smallSweep(louder, folder, { ...mixed, resume: true })).rejects.toThrow(
    /another sweep: the rig/,
  );
  expect(readFileSync(join(folder, "results.jsonl"))).toEqual(before);
});

test("parts of different inputs, missing, doubled and unfinished parts are refused", async () => {
  const folder = temporaryFolder();
  const groups = [[values("Echo.delayMs", 90, 140, 230)]];
  const part = async (n: number, of: number, tailSeconds = 1) => {
    const out = join(folder, `${n}-${of}-${tailSeconds}`);
    await smallSweep(rig, out, { groups, shard: { part: n, of }, request: { tailSeconds } });
    return join(out, `part-${n}-of-${of}.jsonl`);
  };
  const [first, second, otherTail, ofThree] = [
    await part(1, 2),
    await part(2, 2),
    await part(2, 2, 0),
    await part(2, 3),
  ];
  const outDir = join(folder, "joined");
  const refused = (files: string[], says: RegExp) =>
    expect(merge({ files, outDir, wishes: null, force: false })).rejects.toThrow(says);
  await refused(
    [first, otherTail],
    /is of another sweep than .*: what is varied, the routings or the tail differs/,
  );
  await refused([first], /these parts are missing: 2\/2\. Run them/);
  await refused([first, first], /is the same part as/);
  await refused([first, ofThree], /is not a part of the same division/);
  const text = readFileSync(second, "utf8");
  writeFileSync(second, text.slice(0, text.lastIndexOf("\n", text.lastIndexOf('"unit"')) + 1));
  await refused(
    [first, second],
    /is not finished: 1 of \d+ pieces of work are missing\. Run it again with --resume/,
  );
  // Two Nodes of different V8 give sines that differ in the last digit.
  writeFileSync(second, resealed(text.replace(/"engine":"[\d.]+"/, '"engine":"9.4"')));
  await refused([first, second], /is of another sweep than .*: the version of Node \(and with it the last/);
  writeFileSync(second, text.replace(/"by":"(?=algebra|rendering)/, '"bye":"'));
  await refused([first, second], /:2: is not as a sweep wrote it: the file is damaged/);
  writeFileSync(second, "no results\n");
  await refused([first, second], /is no results file of a sweep/);
  expect(existsSync(outDir)).toBe(false);
  writeFileSync(second, text);
  await merge({ files: [first, second], outDir, wishes: null, force: false });
  await expect(merge({ files: [first, second], outDir, wishes: null, force: false })).rejects.toThrow(
    UserError,
  );
});

/** With the checksum of the first line made anew: of a file that is as its sweep wrote it. */
const resealed = (text: string): string =>
  text.replace(/^\{"crc32":"\w{8}",(.*)/, (_, rest) => {
    const crc = crc32(Buffer.from(rest)).toString(16).padStart(8, "0");
    return `{"crc32":"${crc}",${rest}`;
  });

const unitsIn = (text: string): number[] =>
  [...text.matchAll(/"unit":(\d+),"results":\d+\}$/gm)].map(([, unit]) => Number(unit));
