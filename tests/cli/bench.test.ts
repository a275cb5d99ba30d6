import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { writeClip } from "../../src/node/audio/writeClip.js";
import { noise } from "../signals.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { run } from "./run.js";

const rig = `# mine
name: Shed
take: take.wav
pedals:
  - { name: Swing, model: tremolo, jacks: mono-to-stereo } # the old one
  - { name: Echo, model: delay, jacks: mono }
`;

function folderWith(text: string): string {
  const cwd = temporaryFolder();
  writeFileSync(join(cwd, "rig.yaml"), text);
  const take = noise({ seed: 6, frames: 8000, rms: 0.1 });
  writeClip(join(cwd, "take.wav"), { rateHz: 16_000, channels: [take] }, { bits: 24, force: false });
  writeFileSync(join(cwd, "empty.yaml"), "");
  const silence = new Float32Array(8000);
  writeClip(join(cwd, "silent.wav"), { rateHz: 16_000, channels: [silence] }, { bits: 24, force: false });
  return cwd;
}

/** The JSON in a data element of a page. */
function dataIn(file: string, id: string): Record<string, never> {
  const html = readFileSync(file, "utf8");
  return JSON.parse(html.split(`id="${id}">`)[1].split("</script>")[0]);
}

test("a bench carries the rig file as it is written, and its take", async () => {
  const cwd = folderWith(rig);
  const { status, out, err } = await run(["bench", "rig.yaml", "--json"], { cwd });
  expect({ status, err }).toEqual({ status: 0, err: "" });
  expect(JSON.parse(out)).toEqual({ schemaVersion: 1, page: "bench.html", takes: ["take.wav"], faults: [] });
  const inputs = dataIn(join(cwd, "bench.html"), "splitsum-inputs");
  expect(inputs.rigText).toEqual({ file: "rig.yaml", text: rig });
  expect(inputs.takes).toHaveLength(1);
  const again = await run(["bench", "rig.yaml"], { cwd });
  expect(again.status).toBe(2);
  expect(again.err).toMatch(/bench\.html.*--force/);
  expect((await run(["bench", "rig.yaml", "--force"], { cwd })).status).toBe(0);
});

test("faults of a rig are told, and the bench is written to mend them on", async () => {
  const cwd = folderWith(rig.replace("model: delay", "model: dely"));
  const { status, out, err } = await run(["bench", "rig.yaml"], { cwd });
  expect(status).toBe(0);
  expect(err).toMatch(/^rig\.yaml:6:\d+: model is "dely"/);
  expect(out).toMatch(/shown on it/);
});

test("without a rig there is an empty board, the examples, and their takes", async () => {
  const cwd = temporaryFolder();
  const { status, err } = await run(["bench", "--out", "board.html"], { cwd });
  expect({ status, err }).toEqual({ status: 0, err: "" });
  const data = dataIn(join(cwd, "board.html"), "splitsum-data");
  expect(data.report).toBeNull();
  expect(data.examples).toMatchObject([
    { file: "ferry-road.yaml" },
    { file: "mill-loft.yaml" },
    { file: "quay-piano.yaml" },
  ]);
});

test.each([
  ["no such rig", ["gone.yaml"], /gone\.yaml/],
  ["an empty rig", ["empty.yaml"], /empty\.yaml: is empty/],
  ["no such take", ["rig.yaml", "gone.wav"], /gone\.wav/],
  ["a take that is no sound", ["rig.yaml", "rig.yaml"], /rig\.yaml: is not a sound file/],
  ["a silent take", ["rig.yaml", "silent.wav"], /silent\.wav: holds no sound/],
])("%s: one line, and nothing is written", async (_name, words, message) => {
  const cwd = folderWith(rig);
  const { status, err } = await run(["bench", ...words], { cwd });
  expect(status).toBe(2);
  expect(err).toMatch(message);
  expect(err.trim().split("\n")).toHaveLength(1);
  expect(() => readFileSync(join(cwd, "bench.html"))).toThrow();
});
