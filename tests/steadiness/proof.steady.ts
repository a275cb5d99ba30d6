import { expect, test } from "vitest";
import { readRig } from "../../src/node/rig/readRig.js";
import type { Rig } from "../../src/rig/model/rig.js";
import { wiringOf } from "../../src/rig/routings/routingsOf.js";
import { fedThrough } from "../../src/rig/wiring/loading.js";
import type { Wiring } from "../../src/rig/wiring/wiring.js";
import { initialiseFft } from "../../src/sound/dsp/fft.js";
import { UserError } from "../../src/text/userError.js";
import { toneSettingsOf } from "../../src/work/capture/toneSettings.js";
import { Bench, predictorFor } from "../../src/work/proof/bench.js";
import { judgeBoard } from "../../src/work/proof/judgeBoard.js";
import { recordingList } from "../../src/work/proof/recordingList.js";
import { type Verdict, verdictOf } from "../../src/work/proof/verdict.js";
import { sixRigs } from "../rig/routings/sixRigs.js";
import { type Slip, slipsOf } from "../work/proof/mishaps.js";
import { type BenchOhms, type BuiltBoard, recordBoard } from "../work/proof/simulatedBoard.js";

await initialiseFft();
const rightBuilds = Number(process.env.BUILDS ?? 20);
const only = process.env.RIG ?? "";
const source = 10_000;
const tone = toneSettingsOf({
  rateHz: 24_000,
  toHz: 10_800,
  lengthSeconds: 1,
  gapSeconds: 1.1,
  leadInSeconds: 0.5,
});

const demo = (name: string) => readRig(`fixtures/rigs/${name}.yaml`);
const boards: readonly { readonly name: string; readonly rig: Rig; readonly plan: string }[] = [
  { name: "Ferry Road", rig: await demo("ferry-road"), plan: "parallel" },
  { name: "Mill Loft", rig: await demo("mill-loft"), plan: "parallel" },
  { name: "Quay piano", rig: await demo("quay-piano"), plan: "dual-mono" },
  { name: "keyboard", rig: sixRigs["stereo keyboard into a mono reverb"], plan: "parallel-after" },
  { name: "mono delay", rig: sixRigs["mono delay after a chorus"], plan: "one-side" },
  { name: "mix 1", rig: sixRigs["a unit at mix 1"], plan: "parallel-after" },
];

const outcomes = [
  "named",
  "among alike",
  "told as open",
  "nothing comes",
  "other named",
  "missed",
  "not known",
] as const;
type Outcome = (typeof outcomes)[number];
const good: readonly Outcome[] = outcomes.slice(0, 4);
const table = new Map<string, Map<Outcome, number>>();

function count(kind: string, outcome: Outcome): void {
  const row = table.get(kind) ?? new Map<Outcome, number>();
  row.set(outcome, (row.get(outcome) ?? 0) + 1);
  table.set(kind, row);
}

/** Every slip of every board, by noise at -60 dBFS, 50 ppm of drift and a gain of its own; then right builds. */
test.each(boards.filter(({ name }) => name.includes(only)))("$name, $plan", ({ name, rig, plan }) => {
  const drawn = wiringOf(rig, plan);
  if (!drawn) throw new Error(`${name}: no ${plan}`);
  const wiring = fedThrough(drawn, rig, source);
  const list = recordingList(wiring);
  const predictor = predictorFor(tone, new Map(), true);
  const ohms = ohmsOf(rig, wiring);
  const prove = (board: BuiltBoard, seed: number): Verdict => {
    const recordings = list.map((asked, n) => {
      const bench = {
        tone,
        off: asked.off,
        feed: asked.feed,
        gainDb: 1 - (seed % 13),
        seed: 31 * seed + n,
        ohms,
      };
      const clip = recordBoard(board, { ...bench, driftPpm: 50, noiseDbfs: -60, earlyFrames: 500 + 371 * n });
      return { asked, clip, file: `${n + 1}.wav` };
    });
    return verdictOf(judgeBoard(wiring, new Bench(recordings, tone, predictor)));
  };
  let falseAlarms = 0;
  for (let seed = 1; seed <= rightBuilds; seed++) {
    const { built, faults } = prove({ wiring }, 1000 + seed);
    if (built === "as-drawn") continue;
    falseAlarms++;
    console.log(
      `${name}, right build ${seed}: ${built} ${faults.map(({ family }) => family?.id).join(" / ")}`,
    );
  }
  const slips = slipsOf(wiring, 7);
  for (const [n, slip] of slips.entries()) {
    const verdict = orSilent(() => prove(slip, n + 1));
    const outcome = verdict === null ? "nothing comes" : outcomeOf(slip, verdict);
    count(slip.kind, outcome);
    if (verdict === null || good.includes(outcome)) continue;
    const said = verdict.faults.map(({ family, amount }) => `${family?.id} ${amount ?? ""}`).join(" / ");
    console.log(`${name}, ${slip.kind} ${slip.where.join("; ")} ${slip.amount ?? ""}: ${outcome} ${said}`);
  }
  console.log(
    `${name}, ${plan}: ${rightBuilds} right builds, ${falseAlarms} false alarms; ${slips.length} slips`,
  );
  print();
  expect(falseAlarms).toBeLessThanOrEqual(0.01 * rightBuilds);
});

test("at least 95 % of slips are named, or told as open where they change nothing", () => {
  const rows = [...table];
  const all = rows.flatMap(([, row]) => [...row.values()]).reduce((sum, n) => sum + n, 0);
  const right = rows.flatMap(([, row]) => good.map((each) => row.get(each) ?? 0));
  const count = right.reduce((sum, n) => sum + n, 0);
  console.log(`${count} of ${all}`);
  expect(count / all).toBeGreaterThanOrEqual(0.95);
});

function outcomeOf({ kind, where }: Slip, { built, faults, notTold }: Verdict): Outcome {
  const isIt = ({ family }: Verdict["faults"][number]) =>
    family?.kind === kind && where.every((word) => family.where.includes(word));
  if (faults[0] && isIt(faults[0])) return "named";
  if (faults.some(isIt)) return "among alike";
  if (notTold.some(isIt)) return "told as open";
  return built === "faulty" ? "other named" : built === "as-drawn" ? "missed" : "not known";
}

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
