import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { readClip } from "../../src/node/audio/readClip.js";
import { writeClip } from "../../src/node/audio/writeClip.js";
import { framesOf } from "../../src/sound/audio/clip.js";
import { noise } from "../signals.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { run } from "./run.js";

const rigText = `name: Quarry shed
take: take.wav
pedals:
  - { name: Swing, model: tremolo, jacks: mono-to-stereo, settings: { spreadDegrees: 180 } }
  - { name: Echo, model: delay, jacks: mono, settings: { delayMs: 120, mix: 0.4 }, whenOff: buffered, latencyMs: 1 }
`;

/** A folder with a rig and a take of 2 s of noise. */
function folderWithRig(text = rigText): string {
  const cwd = temporaryFolder();
  writeFileSync(join(cwd, "rig.yaml"), text);
  const take = noise({ seed: 5, frames: 32_000, rms: 0.1 });
  writeClip(join(cwd, "take.wav"), { rateHz: 16_000, channels: [take] }, { bits: 24, force: false });
  return cwd;
}

test("switches prints a row a switch, what is noticed, and the sources of the thresholds", async () => {
  const { status, out, err } = await run(["switches", "rig.yaml"], { cwd: folderWithRig() });
  expect({ status, err }).toEqual({ status: 0, err: "" });
  expect(out).toMatch(/^parallel: Delay beside, from a split \(4 states, 4 presses\)$/m);
  expect(out.replace(/\s+/g, " ")).toMatch(/Cure of the [a-z, ]*: mute its return \(Mixer, in 2 \(mono\)\)/);
  expect(out).toContain("Jesteadt, Wier and Green 1977");
  for (const line of out.split("\n")) expect(line.length, line).toBeLessThanOrEqual(100);
});

test("switches --json has routings, states and steps, and nothing else", async () => {
  const { status, out } = await run(["switches", "rig.yaml", "--json", "--routings", "parallel"], {
    cwd: folderWithRig(),
  });
  expect(status).toBe(0);
  const found = JSON.parse(out);
  expect(Object.keys(found)).toEqual(["schemaVersion", "routings"]);
  expect(Object.keys(found.routings[0])).toEqual(["id", "states", "steps"]);
  expect(found.routings[0].states.map(({ id }: { id: string }) => id)).toEqual(["11", "01", "10", "00"]);
  expect(Object.keys(found.routings[0].steps[0])).toEqual([
    "pedal",
    "from",
    "to",
    "levelJumpLu",
    "sideShareChange",
    "correlationChange",
    "flags",
  ]);
  const press = found.routings[0].steps.find(
    (step: { pedal: string; from: string }) => step.pedal === "Echo" && step.from === "11",
  );
  expect(press.to).toBe("10");
  const comb = press.flags.find(({ kind }: { kind: string }) => kind === "comb");
  expect(comb).toMatchObject({ unit: "dB", threshold: -18, cure: { kind: "mute" } });
});

test("--render writes the press in the middle, and replaces nothing without --force", async () => {
  const cwd = folderWithRig();
  const words = ["switches", "rig.yaml", "--routings", "parallel,dual-mono", "--render", "echo:off"];
  const { status, out } = await run(words, { cwd });
  expect(status).toBe(0);
  const folder = join("renders", "quarry-shed-switches");
  const names = readdirSync(join(cwd, folder)).filter((name) => !name.startsWith("."));
  expect(names.sort()).toEqual(["dual-mono.echo-off.wav", "parallel.echo-off.wav"]);
  expect(out).toContain(join(folder, "parallel.echo-off.wav"));
  const clip = await readClip(join(cwd, folder, "parallel.echo-off.wav"), { allowTruncated: false });
  expect([framesOf(clip), clip.channels.length, clip.rateHz]).toEqual([32_000, 2, 16_000]);
  const before = readFileSync(join(cwd, folder, "parallel.echo-off.wav"));
  const again = await run(words, { cwd });
  expect({ status: again.status, out: again.out }).toEqual({ status: 2, out: "" });
  expect(again.err).toMatch(/^renders.*echo-off\.wav: exists already\. .*--force.*nothing was written\.\n$/);
  expect(readFileSync(join(cwd, folder, "parallel.echo-off.wav"))).toEqual(before);
  expect((await run([...words, "--force"], { cwd })).status).toBe(0);
});

test("a rig of seven switches: one press from all on and from all off, and it says so", async () => {
  const pedals = Array.from({ length: 7 }, (_, n) => `  - { name: P${n + 1}, model: boost, jacks: mono }`);
  const cwd = folderWithRig(`name: Many\ntake: take.wav\npedals:\n${pedals.join("\n")}\n`);
  const { status, out } = await run(["switches", "rig.yaml"], { cwd });
  expect(status).toBe(0);
  expect(out).toMatch(/^as-given: As it stands \(16 states of 128, 14 presses\)$/m);
  expect(out).toContain("Where not all states are looked at");
  const chosen = await run(["switches", "rig.yaml", "--states", "P1+P2,none"], { cwd });
  expect(chosen.out).toMatch(/\(14 states of 128, /);
});

/** One clear line, status 2, nothing written. */
test.each([
  [["--states", "Ecko"], '"Ecko" is no footswitch of this rig; did you mean "Echo"?'],
  [["--states", "Echo,,Swing"], "Write all, each, or the pedals that are off"],
  [["--render", "Echo"], "Write a pedal, a colon, and on or off, as in chorus:off."],
  [["--render", "Ecko:off"], '"Ecko" is no footswitch of this rig; did you mean "Echo"?'],
  [["--routings", "paralel"], '"paralel" is no routing of this rig; did you mean "parallel"?'],
])("switches %j", async (words, says) => {
  const cwd = folderWithRig();
  const { status, out, err } = await run(["switches", "rig.yaml", ...words], { cwd });
  expect({ status, out }).toEqual({ status: 2, out: "" });
  expect(err).toContain(says);
  expect(existsSync(join(cwd, "renders"))).toBe(false);
});

test("a silent take has no levels, and that is told", async () => {
  const cwd = folderWithRig();
  const silent = { rateHz: 16_000, channels: [new Float32Array(32_000)] };
  writeClip(join(cwd, "silent.wav"), silent, { bits: 24, force: false });
  const { status, out, err } = await run(["switches", "rig.yaml", "silent.wav", "--routings", "summed"], {
    cwd,
  });
  expect(status).toBe(0);
  expect(err).toMatch(/silent\.wav: /);
  expect(out).toMatch(/^ {3}Swing +- +- +- +- +/m);
});
