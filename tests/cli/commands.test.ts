import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { writeClip } from "../../src/node/audio/writeClip.js";
import { routingIds } from "../../src/rig/routings/routing.js";
import { noise, sine } from "../signals.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { run } from "./run.js";

const rigText = `name: Quarry shed
take: take.wav
pedals:
  - { name: Swing, model: tremolo, jacks: mono-to-stereo, settings: { spreadDegrees: 180 } }
  - { name: Echo, model: delay, jacks: mono, settings: { delayMs: 120, mix: 0.4 }, price: 99 }
`;

/** A folder with a rig and a take of 2 s of noise. */
function folderWithRig(): string {
  const cwd = temporaryFolder();
  writeFileSync(join(cwd, "rig.yaml"), rigText);
  const take = noise({ seed: 5, frames: 32_000, rms: 0.1 });
  writeClip(join(cwd, "take.wav"), { rateHz: 16_000, channels: [take] }, { bits: 24, force: false });
  return cwd;
}

const parsed = (text: string): Record<string, unknown> => JSON.parse(text);

test("compare writes files, JSON and CSV, and prints the table and where they are", async () => {
  const cwd = folderWithRig();
  const { status, out, err } = await run(["compare", "rig.yaml", "--routings", "summed,stereo-unit"], {
    cwd,
  });
  expect({ status, err }).toEqual({ status: 0, err: "" });
  const folder = join(cwd, "renders", "quarry-shed");
  const written = readdirSync(folder).filter((name) => !name.startsWith("."));
  expect(written.filter((name) => name.endsWith(".wav"))).toEqual([
    "dry.wav",
    "stereo-unit.mono.wav",
    "stereo-unit.wav",
    "summed.mono.wav",
    "summed.wav",
  ]);
  expect(written).toEqual(expect.arrayContaining(["report.csv", "report.json"]));
  expect(out).toMatch(/^\* {2}stereo-unit /m);
  expect(out).toMatch(/^ {3}summed +1\.00 +0 /m);
  expect(out).toMatch(/Written to renders\/quarry-shed: 5 sound files, report\.csv, .*report\.json\./);
  expect(out).not.toContain("\u001b");
  const csv = readFileSync(join(folder, "report.csv"), "utf8");
  expect(csv.split("\r\n")).toHaveLength(5);
});

test("compare --json prints what report.json holds; an existing folder needs --force", async () => {
  const cwd = folderWithRig();
  const words = ["compare", "rig.yaml", "take.wav", "--out", "o", "--routings", "unit-first", "--json"];
  const first = await run(words, { cwd });
  expect(first.status).toBe(0);
  expect(first.out).toBe(readFileSync(join(cwd, "o", "report.json"), "utf8"));
  expect(parsed(first.out)).toMatchObject({ schemaVersion: 1, reference: "unit-first" });
  const second = await run(words, { cwd });
  expect({ status: second.status, out: second.out }).toEqual({ status: 2, out: "" });
  expect(second.err).toMatch(/^o: already holds \d files\..*--force.*nothing was written\.\n$/);
  const third = await run([...words, "--force"], { cwd });
  expect(third.status).toBe(0);
  expect(third.out).toBe(first.out);
});

test("compare --dry-run tells what would be done and writes nothing", async () => {
  const cwd = folderWithRig();
  const { status, out } = await run(["compare", "rig.yaml", "--dry-run"], { cwd });
  expect(status).toBe(0);
  expect(out).toContain(`${routingIds.length} routings: series-mono, unit-first`);
  expect(out).toContain("2.0 s of take and at most 20.0 s of tail");
  expect(existsSync(join(cwd, "renders"))).toBe(false);
  const json = await run(["compare", "rig.yaml", "--dry-run", "--json"], { cwd });
  expect(parsed(json.out)).toMatchObject({ outDir: "renders/quarry-shed", takeSeconds: 2, filesThere: 0 });
});

/** Each: one clear line on standard error, status 2, nothing on standard output, nothing written. */
test.each([
  ["no rig", ["compare", "none.yaml"], /^none\.yaml: there is no such file/],
  ["no take", ["compare", "rig.yaml", "none.wav"], /^none\.wav: there is no such file/],
  ["a take that is a rig", ["compare", "rig.yaml", "rig.yaml"], /^rig\.yaml: is not a sound file/],
  [
    "unknown routing",
    ["compare", "rig.yaml", "--routings", "paralel"],
    /^splitsum: "paralel" is no routing .*did you mean "parallel"\?/,
  ],
  [
    "unknown reference",
    ["compare", "rig.yaml", "--reference", "sumed"],
    /^splitsum: "sumed" is no routing .*did you mean "summed"\?/,
  ],
  [
    "unknown routing of options",
    ["options", "rig.yaml", "--routings", "paralel"],
    /^splitsum: "paralel" is no routing/,
  ],
  ["no sound", ["measure", "rig.yaml"], /^rig\.yaml: is not a sound file/],
])("%s", async (_what, words, line) => {
  const cwd = folderWithRig();
  const { status, out, err } = await run(words, { cwd });
  expect({ status, out }).toEqual({ status: 2, out: "" });
  expect(err).toMatch(line);
  expect(err.trimEnd().split("\n")).toHaveLength(1);
  expect(readdirSync(cwd).sort()).toEqual(["rig.yaml", "take.wav"]);
});

test("every fault of a rig is told, a line each, with its place", async () => {
  const cwd = folderWithRig();
  writeFileSync(
    join(cwd, "rig.yaml"),
    rigText.replace("spreadDegrees: 180", "depth: 1.4").replace("mono,", "mno,"),
  );
  const { status, err } = await run(["options", "rig.yaml"], { cwd });
  expect(status).toBe(2);
  expect(err).toBe(
    "rig.yaml:4:78: depth is 1.4; a tremolo's depth goes from 0 to 1. Write 1 for the most.\n" +
      'rig.yaml:5:40: jacks is "mno"; a pedal\'s jacks is one of mono, mono-to-stereo, stereo. Did you mean mono?\n',
  );
});

test("options reads standard input, and gives text or JSON", async () => {
  const text = await run(["options", "-"], { input: rigText });
  expect(text.status).toBe(0);
  expect(text.out).toContain("dual-mono: Two delays, one a side");
  const json = await run(["options", "-", "--json", "--routings", "dual-mono"], { input: rigText });
  expect(parsed(json.out)).toMatchObject({
    schemaVersion: 1,
    routings: [{ id: "dual-mono", possible: true, build: { price: 99, currency: "EUR" } }],
  });
});

/** Closed form: a tone in both sides alike, and one of them turned over, correlate by 1 and -1. */
test("measure gives a table, JSON and CSV of recordings", async () => {
  const cwd = temporaryFolder();
  const tone = sine({ frequencyHz: 500, rateHz: 16_000, lengthSeconds: 1, peakDbfs: -12 });
  writeClip(join(cwd, "a.wav"), { rateHz: 16_000, channels: [tone, tone] }, { bits: 24, force: false });
  writeClip(
    join(cwd, "b.wav"),
    { rateHz: 16_000, channels: [tone, tone.map((x) => -x)] },
    { bits: 24, force: false },
  );
  const table = await run(["measure", "a.wav", "b.wav"], { cwd });
  expect(table.status).toBe(0);
  expect(table.out).toMatch(/a\.wav +1\.0 +1\.00 +0 /);
  expect(table.out).toMatch(/b\.wav +1\.0 +-1\.00 +100 /);
  const json = await run(["measure", "b.wav", "--reference", "b.wav", "--json"], { cwd });
  expect(parsed(json.out)).toMatchObject({
    reference: "b.wav",
    recordings: [{ file: "b.wav", measures: { widthKept: 1 } }],
  });
  const csv = await run(["measure", "a.wav", "--csv"], { cwd });
  expect(csv.out.split("\r\n")).toHaveLength(3);
});

test("init writes rigs and takes that the other commands read; it replaces nothing", async () => {
  const cwd = temporaryFolder();
  mkdirSync(join(cwd, "my"));
  writeFileSync(join(cwd, "my", "other.txt"), "kept");
  const { status, out } = await run(["init", "my"], { cwd });
  expect(status).toBe(0);
  const next = /Next: node .*main\.js (.*)$/m.exec(out)![1];
  const dry = await run([...next.split(" "), "--dry-run"], { cwd });
  expect({ status: dry.status, err: dry.err }).toEqual({ status: 0, err: "" });
  const again = await run(["init", "my"], { cwd });
  expect(again.status).toBe(2);
  expect(again.err).toContain("nothing was written");
  expect(readFileSync(join(cwd, "my", "other.txt"), "utf8")).toBe("kept");
});

test("schema prints a JSON Schema", async () => {
  const { status, out } = await run(["schema"]);
  expect(status).toBe(0);
  expect(parsed(out)).toMatchObject({
    $schema: "https://json-schema.org/draft/2020-12/schema",
    type: "object",
  });
});
