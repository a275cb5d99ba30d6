import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { readClip } from "../../src/node/audio/readClip.js";
import { writeClip } from "../../src/node/audio/writeClip.js";
import type { Report } from "../../src/work/compare/report.js";
import type { TakesReport } from "../../src/work/compare/takesReport.js";
import { noise, sine } from "../signals.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { expectWithin } from "../within.js";
import { run } from "./run.js";

const rateHz = 16_000;
const rigText = `name: Quarry shed
pedals:
  - { name: Swing, model: tremolo, jacks: mono-to-stereo, settings: { spreadDegrees: 180, depth: 0.8, lfoHz: 3 } }
  - { name: Echo, model: delay, jacks: mono, settings: { delayMs: 120, mix: 0.4 } }
`;

/** A rig, a second of noise and a shorter sine. */
function folderWithTakes(): string {
  const cwd = temporaryFolder();
  writeFileSync(join(cwd, "rig.yaml"), rigText);
  const takes = {
    "hiss.wav": noise({ seed: 5, frames: rateHz, rms: 0.1 }),
    "tone.wav": sine({ frequencyHz: 220, rateHz, lengthSeconds: 0.6, peakDbfs: -6 }),
  };
  for (const [name, samples] of Object.entries(takes))
    writeClip(join(cwd, name), { rateHz, channels: [samples] }, { bits: 24, force: false });
  return cwd;
}

const read = <T>(file: string): T => JSON.parse(readFileSync(file, "utf8"));

test("several takes: a folder each, one page, and ranges that hold each take's own figures", async () => {
  const cwd = folderWithTakes();
  const { status, out, err } = await run(
    [
      "compare",
      "rig.yaml",
      "hiss.wav",
      "tone.wav",
      "--routings",
      "unit-first,dual-mono,stereo-unit",
      "--out",
      "o",
    ],
    { cwd },
  );
  expect({ status, err }).toEqual({ status: 0, err: "" });
  for (const line of out.slice(0, out.indexOf("Written to")).split("\n"))
    expect(line.length, line).toBeLessThanOrEqual(100);
  expect(out).toMatch(/heard on hiss.wav and\s+tone.wav/);
  const over = read<TakesReport>(join(cwd, "o", "takes.json"));
  expect(over.takes.map(({ file, folder }) => [file, folder])).toEqual([
    ["hiss.wav", "hiss"],
    ["tone.wav", "tone"],
  ]);
  const own = over.takes.map(({ folder }) => read<Report>(join(cwd, "o", folder, "report.json")));
  for (const { id, ranges } of over.routings) {
    const values = own.map(
      ({ routings }) => routings.find((routing) => routing.id === id)!.measures!.sideShare!,
    );
    expect(ranges.sideShare).toEqual({ least: Math.min(...values), most: Math.max(...values) });
  }
  // The answer counts each wiring by its worst.
  const share = ({ routings }: Report, id: string) =>
    1 - routings.find((routing) => routing.id === id)!.measures!.correlation!;
  const { id: plan, merits } = over.answer.plan!;
  const width = own.map((report) => share(report, plan) / share(report, "stereo-unit"));
  expectWithin(merits.width, Math.min(...width), 1e-12);
  expect(over.takes.map((take) => take.plan)).toEqual(own.map(({ answer }) => answer.plan?.id));
  // These two ask for different wirings, and that is told.
  expect(out.replace(/\s+/g, " ")).toContain("By themselves these takes ask for another wiring: ");
  for (const name of ["report.html", "takes.csv", "hiss/dual-mono.wav", "tone/dual-mono.mono.wav"])
    expect(existsSync(join(cwd, "o", name)), name).toBe(true);
  expect(existsSync(join(cwd, "o", "hiss", "report.html"))).toBe(false);
  // The folder is one of ours: it may be replaced, and by one take as well.
  const again = await run(
    ["compare", "rig.yaml", "tone.wav", "--routings", "summed", "--out", "o", "--force"],
    { cwd },
  );
  expect(again.status).toBe(0);
  expect(existsSync(join(cwd, "o", "takes.json"))).toBe(false);
});

test("answer over several takes is one text, and says whether each asks for the same", async () => {
  const cwd = folderWithTakes();
  const { status, out, err } = await run(["answer", "rig.yaml", "hiss.wav", "tone.wav"], { cwd });
  expect({ status, err }).toEqual({ status: 0, err: "" });
  expect(out.replace(/\s+/g, " ")).toMatch(
    /Each take by itself asks for the same wiring\.|By themselves these takes ask for another wiring: /,
  );
  expect(out).toContain("at least");
});

test("a take named twice, and recordings beside several takes, are refused in a line", async () => {
  const cwd = folderWithTakes();
  const twice = await run(["compare", "rig.yaml", "hiss.wav", "hiss.wav"], { cwd });
  expect(twice.status).toBe(2);
  expect(twice.err).toMatch(/^hiss.wav: is given twice/);
  const also = await run(["compare", "rig.yaml", "hiss.wav", "tone.wav", "--also", "real=hiss.wav"], { cwd });
  expect(also.status).toBe(2);
  expect(also.err).toContain("--also goes with one take");
});

test("--reel joins the choices, matched as their files are, with start times", async () => {
  const cwd = folderWithTakes();
  const words = ["compare", "rig.yaml", "hiss.wav", "--routings", "unit-first,summed", "--out", "o"];
  const { status, err } = await run([...words, "--reel", "0.2..0.7"], { cwd });
  expect({ status, err }).toEqual({ status: 0, err: "" });
  expect(readFileSync(join(cwd, "o", "reel.txt"), "utf8")).toBe(
    "0:00.0  Dry take\n0:01.3  Delay first\n0:02.6  Summed into the delay\n",
  );
  const clip = async (name: string) => readClip(join(cwd, "o", name), { allowTruncated: false });
  const [reel, first] = [await clip("reel.wav"), await clip("unit-first.wav")];
  expect(reel.channels[0].length).toBe((3 * 0.5 + 2 * 0.8) * rateHz);
  // 1.3 s in, 0.2 s of the take on: past the fades every sample is the file's own.
  const middle = (side: number) => reel.channels[side].subarray(1.4 * rateHz, 1.7 * rateHz);
  for (const side of [0, 1])
    expect(middle(side)).toEqual(first.channels[side].subarray(0.3 * rateHz, 0.6 * rateHz));
  const late = await run([...words, "--force", "--reel", "3..5"], { cwd });
  expect(late.status).toBe(2);
  expect(late.err).toContain("--reel begins at 3 s; the take is 1.0 s long");
});

test("silence has no answer: it is refused by name, and no wiring of it is recommended", async () => {
  const cwd = folderWithTakes();
  const silence = { rateHz, channels: [new Float32Array(rateHz)] };
  writeClip(join(cwd, "silent.wav"), silence, { bits: 24, force: false });
  for (const words of [
    ["answer", "rig.yaml", "silent.wav"],
    ["answer", "rig.yaml", "hiss.wav", "silent.wav"],
    ["compare", "rig.yaml", "hiss.wav", "silent.wav", "--out", "o"],
    ["compare", "rig.yaml", "silent.wav", "--out", "o"],
  ]) {
    const { status, out, err } = await run(words, { cwd });
    expect({ status, out }, words.join(" ")).toEqual({ status: 2, out: "" });
    expect(err).toMatch(/^silent\.wav: holds no sound \(1\.0 s of zeros\)\. /m);
  }
  expect(existsSync(join(cwd, "o"))).toBe(false);
});
