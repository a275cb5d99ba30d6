import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { writeClip } from "../../src/node/audio/writeClip.js";
import { sine } from "../signals.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { run } from "./run.js";

const rigText = `name: Quarry shed
take: take.wav
reference: { dbfs: -18, dbu: -10 }
instrument: { outputOhms: 10000, henries: 0 }
destination: { inputOhms: 10000 }
pedals:
  - { name: Push, model: boost, jacks: mono, settings: { gainDb: 12 }, inputOhms: 10000, outputOhms: 1000, maxOutputDbu: -7 }
`;

/** A folder with a rig and a take: a sine of -18 dBFS. */
function folderWithRig(): string {
  const cwd = temporaryFolder();
  writeFileSync(join(cwd, "rig.yaml"), rigText);
  const take = sine({ frequencyHz: 1000, rateHz: 16_000, lengthSeconds: 1, peakDbfs: -18 });
  writeClip(join(cwd, "take.wav"), { rateHz: 16_000, channels: [take] }, { bits: 24, force: false });
  return cwd;
}

/**
 * Closed form: 10 kilohms into 10 kilohms keep 1/2, into the 1 megohm that the take is taken to have been recorded into
 * 1/1.01: -5.934 dB at 1 kHz and below (the cable's 600 pF take 0.005 dB more of the latter); 1 kilohm into 10 keep 10/11,
 * -0.828 dB.
 */
test("levels: every cable, the first to clip, and what the boxes take from each other", async () => {
  const { status, out, err } = await run(["levels", "rig.yaml"], { cwd: folderWithRig() });
  expect({ status, err }).toEqual({ status: 0, err: "" });
  expect(out).toMatch(/Instrument, out +> Push, in +-23\.9 +-23\.9 +-15\.9 +-15\.9 +-$/m);
  expect(out).toMatch(/Push, out +> Stereo desk, in +-12\.8 +-12\.8 +-4\.8 +-4\.8 +-2\.2$/m);
  expect(out).toContain("First to clip: the output of Push (out) at 0.00 s, by 2.2 dB at the worst.");
  expect(out).toMatch(/Instrument > Push +10 k +10 k +-6\.02 +600 +53\.1 kHz/);
});

test("levels --json gives the same in full precision", async () => {
  const { status, out } = await run(["levels", "rig.yaml", "--json"], { cwd: folderWithRig() });
  expect(status).toBe(0);
  const report = JSON.parse(out);
  expect(report).toMatchObject({ schemaVersion: 1, reference: { dbfs: -18, dbu: -10 } });
  expect(report.routings[0].cables[0].peakDbu).toBeCloseTo(-15.93, 2);
  expect(report.routings[0].loading.loads[0].lossDb).toBeCloseTo(-20 * Math.log10(2), 9);
});

/** One clear line with its place, status 2. */
test.each([
  [
    "reference: { dbfs: -18, dbu: -10 }",
    "reference: { dbfs: 3, dbu: -10 }",
    "dbfs is 3; a reference's dbfs goes from -60 to 0 dBFS.",
  ],
  [
    "outputOhms: 10000",
    "outputOhms: 0",
    "outputOhms is 0; an instrument's outputOhms goes from 1 to 100000000 ohms.",
  ],
  [
    "henries: 0",
    "henries: 3000",
    "henries is 3000; an instrument's henries goes from 0 to 100 H. Write 3 if 3000 mH is meant",
  ],
  [
    "henries: 0",
    "tone: { ohms: 500000 }",
    "nanofarads is missing; a tone control's nanofarads is a number from 0.01 to 1000 nF.",
  ],
  ["maxOutputDbu: -7", "maxOuputDbu: -7", "Did you mean maxOutputDbu?"],
])("a rig file with a wrong level: %s", async (right, wrong, says) => {
  const cwd = folderWithRig();
  writeFileSync(join(cwd, "rig.yaml"), rigText.replace(right, wrong));
  const { status, out, err } = await run(["levels", "rig.yaml"], { cwd });
  expect({ status, out }).toEqual({ status: 2, out: "" });
  expect(err).toMatch(/^rig\.yaml:\d+:\d+: /);
  expect(err).toContain(says);
});
