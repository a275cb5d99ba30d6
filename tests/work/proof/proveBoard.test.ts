import { beforeAll, expect, test } from "vitest";
import { wiringOf } from "../../../src/rig/routings/routingsOf.js";
import type { Wiring } from "../../../src/rig/wiring/wiring.js";
import { initialiseFft } from "../../../src/sound/dsp/fft.js";
import { Bench, predictorFor } from "../../../src/work/proof/bench.js";
import { faultsOf } from "../../../src/work/proof/faults.js";
import { judgeBoard } from "../../../src/work/proof/judgeBoard.js";
import { recordingList } from "../../../src/work/proof/recordingList.js";
import { refined } from "../../../src/work/proof/refine.js";
import { type Verdict, verdictOf } from "../../../src/work/proof/verdict.js";
import { pedal, rigOf } from "../../rigs.js";
import { noise } from "../../signals.js";
import { expectWithin } from "../../within.js";
import { type Slip, slipsOf } from "./mishaps.js";
import { shortTone as tone } from "./shortTone.js";
import { type BuiltBoard, recordBoard } from "./simulatedBoard.js";

/** A chorus and, after it, a mono delay: two footswitches, three recordings. */
const rig = rigOf([
  pedal("Ripple", "chorus", "mono-to-stereo", { secondOutput: "inverted-wet" }, { latencyMs: 1 }),
  pedal("Carter", "delay", "mono", { delayMs: 230, mix: 0.4 }, { latencyMs: 1.5 }),
]);
const wiring = wiringOf(rig, "parallel") as Wiring;
const list = recordingList(wiring);
const predictor = predictorFor(tone, new Map(), true);
let slips: readonly Slip[] = [];

beforeAll(async () => {
  await initialiseFft();
  slips = slipsOf(wiring, 3);
});

const proven = (board: BuiltBoard, seed: number): Verdict =>
  verdictOf(judgeBoard(wiring, benchOf(board, seed)));

/** Recorded with noise at -60 dBFS, 50 ppm of drift, some gain, and started at its own time. */
function benchOf(board: BuiltBoard, seed: number): Bench {
  const recordings = list.map((asked, n) => {
    const bench = { tone, off: asked.off, feed: asked.feed, gainDb: -3 - (seed % 9), seed: 10 * seed + n };
    const clip = recordBoard(board, { ...bench, driftPpm: 50, noiseDbfs: -60, earlyFrames: 900 + 371 * n });
    return { asked, clip, file: `${n + 1}.wav` };
  });
  return new Bench(recordings, tone, predictor);
}

const slip = (kind: string, where: string): Slip => {
  const found = slips.find((each) => each.kind === kind && each.where.join("; ").includes(where));
  if (!found) throw new Error(`${kind} ${where}`);
  return found;
};

test("the list: everything on, then what swings off, then each steady footswitch with it", () => {
  expect(list.map(({ offLabels }) => offLabels)).toEqual([[], ["Ripple"], ["Ripple", "Carter"]]);
  expect(list[0].swinging).toEqual(["Ripple"]);
});

test("a board as drawn has no fault", () => {
  const verdict = proven({ wiring }, 1);
  expect(verdict).toMatchObject({ built: "as-drawn", faults: [] });
  expect(verdict.sureness).toBeGreaterThan(0.9);
});

/** Nothing is panned beyond the end of the knob: there the recordings fit as well, turned over. */
test("a pan at the end of its way is told, with how far off it may be", () => {
  const pan = faultsOf(wiring).find(({ id }) => id === "pan Mixer, in 1 left");
  if (!pan) throw new Error("no pan");
  const fitted = refined(
    pan,
    -1,
    { reach: 0.25, least: 0.02, most: 0.4, overdispersion: 1 },
    benchOf({ wiring }, 2),
  );
  expectWithin(Number(fitted?.amount), -1, 0.02);
  expect(fitted?.within).toBeLessThan(0.1);
});

/** A confusion table of every slip: `npm run steady`. */
test.each([
  ["sides-swapped", "Mixer; Stereo desk"],
  ["cable-elsewhere", "Carter, out"],
  ["polarity", "Mixer, out right"],
  ["not-fully-wet", "Carter"],
  ["level", "in 2"],
  ["pan", "in 1 right"],
])("%s, %s: the fault is named, and how far it goes", (kind, where) => {
  const made = slip(kind, where);
  const { built, faults, sureness } = proven(made, 1 + kind.length);
  expect(built).toBe("faulty");
  const named = faults.filter(
    ({ family }) => family?.kind === kind && made.where.every((word) => family.where.includes(word)),
  );
  expect(named).toHaveLength(1);
  expect(sureness).toBeGreaterThan(0.9);
  if (made.amount !== null) expectWithin(Number(named[0].amount), made.amount, kind === "level" ? 0.5 : 0.02);
});

/** A polarity turned over at the very start is on both sides alike: no recording of the two can tell. */
test("what cannot be told is named as such", () => {
  const { built, notTold } = proven(slip("polarity", "Instrument"), 4);
  expect(built).toBe("as-drawn");
  const open = notTold.map(({ family }) => family?.where);
  expect(open).toContain("Instrument, out > Splitter, in");
  // Outputs of one splitter are alike: no slip, and nothing to look at.
  expect(open).not.toContain("Splitter, out 1 > Ripple, in; Splitter, out 2 > Carter, in");
});

/** Knobs never stand where a rig file says: repeats 8 ms later and 1 dB louder are no slip of the hand. */
test("a unit a little unlike its model is no fault", () => {
  const boxes = wiring.boxes.map((box) =>
    box.kind === "pedal" && box.label === "Carter"
      ? {
          ...box,
          pedal: {
            ...box.pedal,
            levelDb: 1,
            settings: { ...box.pedal.settings, delayMs: 238, feedback: 0.4 },
          },
        }
      : box,
  );
  expect(proven({ wiring: { boxes, cables: wiring.cables } }, 6)).toMatchObject({
    built: "as-drawn",
    faults: [],
  });
});

/** Where a footswitch cuts everything, one recording holds hiss alone; a loud one without the tone is another file. */
test("a recording that holds nothing is a finding, one that holds something else is refused", () => {
  const sounds = list.map((asked, n) => ({
    asked,
    clip: recordBoard({ wiring }, { tone, off: asked.off, feed: asked.feed, noiseDbfs: -70, seed: n }),
    file: `${n + 1}.wav`,
  }));
  const withLast = (rms: number) => {
    const frames = sounds[2].clip.channels[0].length;
    const channels = [8, 9].map((seed) => noise({ seed, frames, rms }));
    const last = { ...sounds[2], clip: { rateHz: tone.rateHz, channels } };
    return new Bench([sounds[0], sounds[1], last], tone, predictor);
  };
  expect(verdictOf(judgeBoard(wiring, withLast(10 ** (-70 / 20)))).built).not.toBe("as-drawn");
  expect(() => withLast(0.1)).toThrow(/does not hold this test tone/);
});

/** Two slips at once are no neighbour of the plan. */
test("two slips at once are not put down to one", () => {
  const [one, two] = [slip("not-fully-wet", "Carter"), slip("cable-missing", "Ripple, out left")];
  const both = { boxes: one.wiring.boxes, cables: two.wiring.cables };
  expect(proven({ wiring: both }, 5).built).toBe("not-known");
});
