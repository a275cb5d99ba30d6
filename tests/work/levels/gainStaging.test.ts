import { describe, expect, test } from "vitest";
import type { Rig } from "../../../src/rig/model/rig.js";
import { routingsOf } from "../../../src/rig/routings/routingsOf.js";
import { dbToGain } from "../../../src/sound/dsp/units.js";
import { gainStaging } from "../../../src/work/levels/gainStaging.js";
import type { WiringLevels } from "../../../src/work/levels/wiringLevels.js";
import { pedal, rigOf, soldBox } from "../../rigs.js";
import { sine } from "../../signals.js";
import { expectWithin } from "../../within.js";

const rateHz = 48_000;
const reference = { dbfs: -18, dbu: -10 };
/** Whole periods, so that the RMS is the sine's own. */
const take = sine({ frequencyHz: 1000, rateHz, lengthSeconds: 0.5, peakDbfs: -18 });
const boost = (name: string, gainDb: number, rest = {}) => pedal(name, "boost", "mono", { gainDb }, rest);
const still = (rest = {}) => pedal("Split", "tremolo", "mono-to-stereo", { depth: 0 }, rest);

function stage(rig: Rig, id: string, sound = take): WiringLevels {
  const wirings = routingsOf(rig).flatMap(({ id: word, wiring }) => (wiring ? [{ id: word, wiring }] : []));
  const found = gainStaging({ rig, wirings, take: sound, rateHz, clips: new Map() });
  return found.find((routing) => routing.id === id)!;
}

describe("levels on the cables", () => {
  const rig = rigOf([boost("Push", 6, { maxInputDbu: 2, maxOutputDbu: -1 }), boost("Pull", -10)], {
    reference,
  });
  const { cables, boxes, firstClip } = stage(rig, "as-given");

  test("a sine at the reference reads the reference, in peak and in RMS", () => {
    expect(cables[0]).toMatchObject({ from: "Instrument", to: "Push" });
    expectWithin(cables[0].peakDbfs, -18, 1e-4, "dBFS");
    expectWithin(cables[0].rmsDbfs, -18, 1e-4, "dBFS");
    expectWithin(cables[0].peakDbu, -10, 1e-4, "dBu");
    expectWithin(cables[0].rmsDbu, -10, 1e-4, "dBu");
  });
  test("each box adds its gain", () => {
    expect(cables.map(({ from, to }) => `${from} > ${to}`)).toEqual([
      "Instrument > Push",
      "Push > Pull",
      "Pull > Stereo desk",
    ]);
    expectWithin(cables[1].peakDbu, -4, 1e-4, "dBu");
    expectWithin(cables[2].rmsDbu, -14, 1e-4, "dBu");
  });
  test("headroom is down to the nearer limit, and boxes without limits have none to tell", () => {
    const [instrument, push, pull] = boxes;
    expect(instrument).toMatchObject({ input: null, headroomDb: null });
    // 12 dB at the input, 3 dB at the output.
    expectWithin(push.headroomDb, 3, 1e-4, "dB");
    expect(pull.headroomDb).toBeNull();
    expectWithin(cables[0].headroomDb, 12, 1e-4, "dB");
    expectWithin(cables[1].headroomDb, 3, 1e-4, "dB");
    expect(firstClip).toBeNull();
  });
});

test("the first limit to break is told with its moment and by how much", () => {
  // A sine of frequency f and amplitude A first passes the limit L after asin(L / A) / (2 pi f) seconds.
  const rig = rigOf([boost("Push", 12, { maxOutputDbu: -1 }), boost("Next", 0, { maxInputDbu: 1 })], {
    reference,
  });
  const { firstClip } = stage(rig, "as-given");
  expect(firstClip).toMatchObject({ box: "Push", jack: "out", at: "output" });
  expectWithin(firstClip!.overDb, 3, 1e-4, "dB");
  const seconds = Math.asin(dbToGain(-3)) / (2 * Math.PI * 1000);
  expectWithin(firstClip!.seconds, seconds, 1 / rateHz, "s");
});

describe("where branches meet", () => {
  // Closed form: two coherent equal signals sum to +6.02 dB. The return's equal-power pan takes 3.01 dB a side.
  const coherent = (rest: Partial<Rig> = {}) =>
    rigOf([still(), boost("Beside", 0)], {
      mixer: { dryDb: 0, returnDb: 10 * Math.log10(2), returnPan: 0 },
      ...rest,
    });
  const loud = sine({ frequencyHz: 1000, rateHz, lengthSeconds: 0.5, peakDbfs: -3 });

  test("branches that are each below full scale clip as a sum", () => {
    const [sum] = stage(coherent(), "parallel", loud).sums;
    expect(sum).toMatchObject({ box: "Mixer", limitBy: "full-scale", limitDbfs: 0 });
    expect(sum.branches.map(({ jack }) => jack)).toEqual(["in 1 left", "in 1 right", "in 2 (mono)"]);
    for (const { peakDbfs } of sum.branches) expectWithin(peakDbfs, -3, 1e-3, "dBFS");
    expectWithin(sum.peakDbfs, -3 + 20 * Math.log10(2), 1e-3, "dBFS");
    expectWithin(sum.headroomDb, 3 - 20 * Math.log10(2), 1e-3, "dB");
    expectWithin(sum.firstOverSeconds, Math.asin(dbToGain(-3.0206)) / (2 * Math.PI * 1000), 1 / rateHz, "s");
  });
  test("a stated maximum counts instead of full scale, where the reference is known", () => {
    const { boxes } = rigOf([]);
    const mixer = [soldBox({ maxOutputDbu: 20 })];
    const sumOf = (rest: Partial<Rig>) =>
      stage(coherent({ boxes: { ...boxes, mixer }, ...rest }), "parallel", loud).sums[0];
    expect(sumOf({ reference })).toMatchObject({ limitBy: "stated", limitDbfs: 12, firstOverSeconds: null });
    expect(sumOf({ reference: null })).toMatchObject({ limitBy: "full-scale", limitDbfs: 0 });
  });
  test("a summing box halves each of two inputs", () => {
    const { sums } = stage(rigOf([still(), boost("Beside", 0)]), "summed");
    expectWithin(sums[0].branches[0].peakDbfs, -18 - 20 * Math.log10(2), 1e-3, "dBFS");
    expectWithin(sums[0].peakDbfs, -18, 1e-3, "dBFS");
  });
});

test("without a reference there is no dBu, and no headroom against a stated maximum", () => {
  const { cables, boxes } = stage(rigOf([boost("Push", 6, { maxInputDbu: -20 })]), "as-given");
  expect(cables[0]).toMatchObject({ peakDbu: null, rmsDbu: null, headroomDb: null });
  expect(boxes[1].headroomDb).toBeNull();
});

test("silence has no level", () => {
  const { cables, firstClip } = stage(
    rigOf([boost("Push", 6)], { reference }),
    "as-given",
    new Float32Array(4800),
  );
  expect(cables[0]).toMatchObject({ peakDbfs: null, rmsDbfs: null, peakDbu: null, rmsDbu: null });
  expect(firstClip).toBeNull();
});

test("the order of boxes and cables changes no figure", () => {
  const rig = rigOf([still(), boost("Beside", 3)], { reference });
  const { wiring } = routingsOf(rig).find(({ id }) => id === "parallel-after")!;
  const [as, shuffled] = [
    wiring!,
    { boxes: [...wiring!.boxes].reverse(), cables: [...wiring!.cables].reverse() },
  ].map(
    (each) => gainStaging({ rig, wirings: [{ id: "x", wiring: each }], take, rateHz, clips: new Map() })[0],
  );
  const key = ({
    from,
    fromJack,
    to,
    toJack,
  }: {
    from: string;
    fromJack: string;
    to: string;
    toJack: string;
  }) => `${from} ${fromJack} ${to} ${toJack}`;
  const sorted = ({ cables }: WiringLevels) => [...cables].sort((a, b) => key(a).localeCompare(key(b)));
  expect(sorted(shuffled)).toEqual(sorted(as));
});
