import { expect, test } from "vitest";
import type { Rig } from "../../src/rig/model/rig.js";
import { wiringOf } from "../../src/rig/routings/routingsOf.js";
import { fedThrough } from "../../src/rig/wiring/loading.js";
import type { Box, Wiring } from "../../src/rig/wiring/wiring.js";
import { initialiseFft } from "../../src/sound/dsp/fft.js";
import { UserError } from "../../src/text/userError.js";
import { toneSettingsOf } from "../../src/work/capture/toneSettings.js";
import { Bench, predictorFor } from "../../src/work/proof/bench.js";
import { judgeBoard } from "../../src/work/proof/judgeBoard.js";
import { recordingList } from "../../src/work/proof/recordingList.js";
import { type Verdict, verdictOf } from "../../src/work/proof/verdict.js";
import { type Slip, slipsOf } from "../work/proof/mishaps.js";
import { provenRigs } from "../work/proof/provenRigs.js";
import { givesTheSame } from "../work/proof/sameRecordings.js";
import { type BenchOhms, type BuiltBoard, recordBoard } from "../work/proof/simulatedBoard.js";

await initialiseFft();
const builds = Number(process.env.BUILDS ?? 20);
const only = process.env.RIG ?? "";
const source = 10_000;
const tone = toneSettingsOf({
  rateHz: 12_000,
  toHz: 5400,
  lengthSeconds: 1,
  gapSeconds: 1.1,
  leadInSeconds: 0.5,
});

/**
 * What becomes of a slip. Named: it is the first fault told. With its equals: it is among those that are told to give the same
 * recordings. Told as open: the board is said to be as drawn as far as can be told, and the slip stands on the list of what cannot;
 * rightly where recordings of it are the plan's own, else it is told wrongly.
 */
const outcomes = [
  "named",
  "with its equals",
  "nothing comes",
  "open, same recordings",
  "open, others",
  "other named",
  "missed",
  "not known",
] as const;
type Outcome = (typeof outcomes)[number];
const table = new Map<string, Map<Outcome, number>>();
const groupSizes: number[] = [];
let alarms = 0;
let rightOnes = 0;

function count(kind: string, outcome: Outcome): void {
  const row = table.get(kind) ?? new Map<Outcome, number>();
  row.set(outcome, (row.get(outcome) ?? 0) + 1);
  table.set(kind, row);
}

/** Every slip of every board, by noise at -60 dBFS, 50 ppm of drift and a gain of its own; then right builds. */
test.each(provenRigs.filter(({ name }) => name.includes(only)))("$name, $plan", ({ name, rig, plan }) => {
  const drawn = wiringOf(rig, plan);
  if (!drawn) throw new Error(`${name}: no ${plan}`);
  const wiring = fedThrough(drawn, rig, source);
  const list = recordingList(wiring);
  const predictor = predictorFor(tone, new Map(), true);
  const ohms = ohmsOf(rig, wiring);
  const prove = (board: BuiltBoard, seed: number): Verdict => {
    const recordings = list.map((asked, n) => {
      const { off, feed } = asked;
      const bench = { tone, off, feed, ohms, gainDb: 1 - (seed % 13), seed: 31 * seed + n };
      const clip = recordBoard(board, { ...bench, driftPpm: 50, noiseDbfs: -60, earlyFrames: 500 + 371 * n });
      return { asked, clip, file: `${n + 1}.wav` };
    });
    return verdictOf(judgeBoard(wiring, new Bench(recordings, tone, predictor)));
  };
  const asPlanned = { wiring };
  const isTheSame = (board: BuiltBoard): boolean =>
    givesTheSame<BuiltBoard>(asPlanned, board, list, (each, { off, feed }, degrees) =>
      recordBoard(degrees === 0 ? each : startedAt(each, degrees), { tone, off, feed, ohms }),
    );
  const slips = slipsOf(wiring, 7);
  const progress = (done: number, what: string) =>
    console.log(`${name} ${done}/${builds + slips.length}, ${Math.round(process.uptime())} s: ${what}`);
  let falseAlarms = 0;
  for (let seed = 1; seed <= builds; seed++) {
    const { built, faults } = prove(asPlanned, 1000 + seed);
    if (built !== "as-drawn") falseAlarms++;
    progress(seed, `right build: ${built} ${faults.map(({ family }) => family?.id).join(" / ")}`);
  }
  alarms += falseAlarms;
  rightOnes += builds;
  for (const [n, slip] of slips.entries()) {
    const verdict = orSilent(() => prove(slip, n + 1));
    const outcome = outcomeOf(slip, verdict, () => isTheSame(slip));
    count(slip.kind, outcome);
    if (outcome === "with its equals") groupSizes.push(verdict?.faults.length ?? 0);
    const told = outcome === "named" ? [] : (verdict?.faults ?? []);
    const said = told.map(({ family, amount }) => `${family?.id} ${amount ?? ""}`).join(" / ");
    progress(
      builds + n + 1,
      `${slip.kind} ${slip.where.join("; ")} ${slip.amount ?? ""}: ${outcome} ${said}`,
    );
  }
  print();
  expect(falseAlarms).toBeLessThanOrEqual(0.01 * builds);
});

test("at least 95 % of slips are told rightly, and 99 % of right builds", () => {
  const of = (list: readonly Outcome[]) =>
    [...table.values()].reduce((sum, row) => list.reduce((all, each) => all + (row.get(each) ?? 0), sum), 0);
  const heard = of(outcomes) - of(["open, same recordings"]);
  const found = heard - of(outcomes.slice(4));
  console.log(
    `${of(outcomes)} slips, ${heard} of them in the recordings: ${found} told, ${of(["named"])} named first`,
  );
  console.log(`equals told together: ${groupSizes.sort((a, b) => a - b).join(" ")}`);
  console.log(`${alarms} alarms of ${rightOnes} right builds`);
  expect(found / heard).toBeGreaterThanOrEqual(0.95);
  expect(alarms / rightOnes).toBeLessThanOrEqual(0.01);
});

function outcomeOf({ kind, where }: Slip, verdict: Verdict | null, isTheSame: () => boolean): Outcome {
  if (verdict === null) return "nothing comes";
  const { built, faults, notTold } = verdict;
  const isIt = ({ family }: Verdict["faults"][number]) =>
    family?.kind === kind && where.every((word) => family.where.includes(word));
  if (faults[0] && isIt(faults[0])) return "named";
  if (faults.some(isIt)) return "with its equals";
  if (notTold.some(isIt)) return isTheSame() ? "open, same recordings" : "open, others";
  return built === "faulty" ? "other named" : built === "as-drawn" ? "missed" : "not known";
}

/** The board with its LFOs elsewhere. */
const startedAt = ({ wiring: { boxes, cables }, ...rest }: BuiltBoard, degrees: number): BuiltBoard => ({
  ...rest,
  wiring: {
    cables,
    boxes: boxes.map((box): Box => {
      if (box.kind !== "pedal" || typeof box.pedal.settings.phaseDegrees !== "number") return box;
      const phaseDegrees = (box.pedal.settings.phaseDegrees + degrees) % 360;
      return { ...box, pedal: { ...box.pedal, settings: { ...box.pedal.settings, phaseDegrees } } };
    }),
  },
});

/** Null where nothing at all comes out, which is said as such. */
function orSilent(prove: () => Verdict): Verdict | null {
  try {
    return prove();
  } catch (error) {
    if (error instanceof UserError && /nothing gets through/.test(error.message)) return null;
    throw error;
  }
}

function ohmsOf(rig: Rig, { boxes }: Wiring): BenchOhms {
  const stated = boxes.flatMap((box): [string, BenchOhms["boxes"][string]][] => {
    if (box.kind === "destination")
      return [[box.id, { inputOhms: rig.destination.inputOhms, outputOhms: null }]];
    const isPart = box.kind === "splitter" || box.kind === "mixer" || box.kind === "summing-box";
    return isPart ? [[box.id, rig.boxes[box.kind][0]]] : [];
  });
  return { source, boxes: Object.fromEntries(stated) };
}

function print(): void {
  console.log(["", ...outcomes].join(" | "));
  for (const [kind, row] of table)
    console.log([kind, ...outcomes.map((each) => row.get(each) ?? 0)].join(" | "));
}
