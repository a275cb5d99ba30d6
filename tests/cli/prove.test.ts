import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import { writeClip } from "../../src/node/audio/writeClip.js";
import { proveRig } from "../../src/node/proof/proveRig.js";
import { readRig } from "../../src/node/rig/readRig.js";
import { wiringOf } from "../../src/rig/routings/routingsOf.js";
import type { Wiring } from "../../src/rig/wiring/wiring.js";
import type { Clip } from "../../src/sound/audio/clip.js";
import { initialiseFft } from "../../src/sound/dsp/fft.js";
import { proofText } from "../../src/words/proofText.js";
import { makeTone } from "../../src/work/capture/makeTone.js";
import type { ProofReport } from "../../src/work/proof/proofReport.js";
import { recordingList } from "../../src/work/proof/recordingList.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { recordBoard } from "../work/proof/simulatedBoard.js";
import { run } from "./run.js";

const cwd = temporaryFolder();
const path = (name: string) => join(cwd, name);
const rigText = `name: Two boxes
pedals:
  - name: Rattle
    model: delay
    jacks: mono-to-stereo
    settings: { delayMs: 70, pingPong: true }
  - name: <Slap> & co
    model: delay
    jacks: mono
    settings: { delayMs: 120, mix: 0.3 }
`;
const tone = { rateHz: 12_000, toHz: 5400, lengthSeconds: 0.7, gapSeconds: 0.9, leadInSeconds: 0.4 };

/** A right board on the bench, and files that are no recording of it. */
beforeAll(async () => {
  await initialiseFft();
  writeFileSync(path("rig.yaml"), rigText);
  const { clip, description } = makeTone(tone);
  writeFileSync(path("tone.json"), JSON.stringify(description));
  const wiring = wiringOf(await readRig(path("rig.yaml")), "one-side") as Wiring;
  const list = recordingList(wiring);
  const save = (name: string, sound: Clip) => writeClip(path(name), sound, { bits: 24, force: false });
  for (const [n, { off, feed }] of list.entries()) {
    const bench = { tone: description.tone, off, feed, gainDb: -4, noiseDbfs: -70, seed: n + 1 };
    save(`${n + 1}.wav`, recordBoard({ wiring }, bench));
  }
  const { rateHz, channels } = recordBoard({ wiring }, { tone: description.tone, off: [], feed: "both" });
  const [side] = channels;
  save("mono.wav", { rateHz, channels: [side] });
  save("silent.wav", { rateHz, channels: [side.map(() => 0), side.map(() => 0)] });
  save("short.wav", { rateHz, channels: channels.map((each) => each.slice(0, 3 * rateHz)) });
  save("other.wav", { rateHz, channels: channels.map((each) => each.map((_, n) => Math.sin(n / 9) / 4)) });
  save("rate.wav", { rateHz: 44_100, channels: clip.channels.concat(clip.channels) });
});

const words = ["prove", "rig.yaml", "1.wav", "2.wav", "3.wav", "--plan", "one-side", "--tone", "tone.json"];

test("prove: JSON and a page from one run, and the same in a terminal", async () => {
  const { status, out: json, err } = await run([...words, "--out", "proof.html", "--json"], { cwd });
  expect({ status, err }).toEqual({ status: 0, err: "proof.html: the sheet, to print.\n" });
  const report: ProofReport = JSON.parse(json);
  expect(report).toMatchObject({
    schemaVersion: 1,
    built: "as-drawn",
    plan: { id: "one-side" },
    recordings: [{ file: "1.wav", off: [] }, { off: ["Rattle"] }, { off: ["<Slap> & co"] }],
  });
  for (const columns of [80, 100]) {
    const out = proofText(report, columns);
    expect(out).toMatch(/^Two boxes, one-side: /);
    expect(out).toMatch(/Built as drawn, as far as these recordings tell: no fault found/);
    expect(out).toMatch(/Footswitches +as drawn +as drawn +yes/);
    expect(out).toMatch(/Sound at the right +output +sound +sound +yes|Sound at the right output +sound/);
    expect(out).toMatch(/2\.wav +Rattle off/);
    expect(out.replace(/\n +/g, " ")).toMatch(
      /Polarity \(Instrument, out > Rattle, in\): turned over, it turns all that is heard over alike/,
    );
    expect(out).toMatch(/Hearing:[\s\S]*Mains:/);
    for (const line of out.split("\n")) expect(line.length).toBeLessThanOrEqual(columns);
  }
  const page = readFileSync(path("proof.html"), "utf8");
  expect(page).toContain("&#60;Slap&#62; &#38; co");
  expect(page).not.toMatch(/<Slap>|src=|href=|<script/);
  const again = await run([...words, "--out", "proof.html"], { cwd });
  expect(again.status).toBe(2);
  expect(again.err).toMatch(/proof\.html.*exists already/);
});

test("prove --plan-tones: the tone, its description, and what to record in order", async () => {
  const plan = ["prove", "rig.yaml", "--plan", "one-side", "--plan-tones"];
  const { status, out } = await run([...plan, "--out", "tones"], { cwd });
  expect(status).toBe(0);
  expect(out).toMatch(/1 {2}Everything on, as in the plan\.\n +2 {2}Rattle off\.\n +3 {2}<Slap> & co off\./);
  expect(out).toMatch(/prove rig\.yaml 1\.wav 2\.wav 3\.wav --plan one-side --tone tones\/tone\.json/);
  expect(readFileSync(path("tones/recordings.txt"), "utf8")).toContain("Rattle off");
  expect(JSON.parse(readFileSync(path("tones/tone.json"), "utf8"))).toMatchObject({ schemaVersion: 1 });
  expect((await run(plan, { cwd })).err).toMatch(/needs a folder to write into: add --out FOLDER/);
});

/** One clear message each, with what to do. */
test.each([
  [
    ["1.wav", "2.wav"],
    "one-side",
    /2 recordings are given; this plan takes 3, in this order: 1 everything on; 2/,
  ],
  [["1.wav", "2.wav", "gone.wav"], "one-side", /gone\.wav: there is no such file/],
  [
    ["1.wav", "2.wav", "mono.wav"],
    "one-side",
    /mono\.wav: has one channel; the plan has two outputs\. Record both/,
  ],
  [["1.wav", "2.wav", "silent.wav"], "one-side", /silent\.wav: the recording holds no sound.*Check cables/],
  [["1.wav", "2.wav", "short.wav"], "one-side", /short\.wav: the recording .*(too short|holds 1 of 2)/],
  [["1.wav", "2.wav", "other.wav"], "one-side", /other\.wav: the recording does not hold this test tone/],
  [
    ["1.wav", "2.wav", "rate.wav"],
    "one-side",
    /rate\.wav: the recording is at 44100 Hz, the tone at 12000 Hz/,
  ],
  [["1.wav", "2.wav", "2.wav"], "one-side", /2\.wav: is the same recording as .*2\.wav/],
  [
    ["1.wav", "2.wav", "3.wav"],
    "onesided",
    /"onesided" is no routing of this rig; did you mean "one-side"\?/,
  ],
])("prove %j --plan %s is refused", async (files, plan, says) => {
  const rig = await readRig(path("rig.yaml"));
  const recordings = files.map(path);
  const job = {
    rig,
    rigFile: path("rig.yaml"),
    plan,
    recordings,
    toneFile: path("tone.json"),
    noiseUnderDb: 30,
  };
  const error: unknown = await proveRig(job).catch((fault: unknown) => fault);
  expect(String(error instanceof Error ? error.message : error)).toMatch(says);
});
