import { routingsOf } from "../../src/rig/routings/routingsOf.js";
import { buildSheet } from "../../src/rig/wiring/buildSheet.js";
import { measuresOf } from "../../src/sound/measure/fill.js";
import type { Measures } from "../../src/sound/measure/measures.js";
import { measureClip } from "../../src/sound/measure/stereoMeter.js";
import { answerOf } from "../../src/work/answer/answer.js";
import { type Report, type RoutingReport, reportSchemaVersion } from "../../src/work/compare/report.js";
import { simpleRig } from "../rigs.js";

/** Every measure there is, of no sound. */
const nothing = measuresOf(measureClip({ rateHz: 48_000, channels: [] }), null, {
  reference: null,
  dry: null,
});

/** Invented figures of an unremarkable stereo render, changed as told. */
export const measures = (changes: Partial<Measures> = {}): Measures => ({
  ...nothing,
  correlation: 0.62,
  correlationOverTime: {
    median: 0.6,
    percentile5: 0.2,
    shareBelowZero: 0.01,
    values: [0.6, null],
    hopSeconds: 0.1,
  },
  iacc: 0.7,
  sideShare: 0.19,
  sideToMidDb: -6.3,
  widthKept: 0.95,
  balanceDb: 0.2,
  foldDownLossDb: 0.91,
  worstFoldDownHz: 500,
  integratedLufs: -21.3,
  shortTermMaxLufs: -18,
  momentaryMaxLufs: -16,
  loudnessRangeLu: 7.1,
  truePeakDbtp: -4.2,
  samplePeakDbfs: -4.4,
  centroidHz: 900,
  tiltDbPerOctave: -5.2,
  bands: [band({ centreHz: 500, levelDb: -20 }), band({ centreHz: 1000, levelDb: -26 })],
  thirds: [{ centreHz: 500, levelDb: -24, toDryDb: 0.5, toReferenceDb: 0.1 }],
  decay: { edtSeconds: 1.9, t20Seconds: 2.1, t30Seconds: 2.2, curveDb: [0, -1.5], stepSeconds: 0.01 },
  wetToDryDb: -4.4,
  comb: null,
  reasons: { comb: "no late copy of the dry signal meets it" },
  ...changes,
});

type Band = Measures["bands"][number];
export const band = (changes: Partial<Band>): Band => ({
  centreHz: 1000,
  levelDb: -20,
  correlation: 0.5,
  sideShare: 0.25,
  foldDownLossDb: 1.2,
  toDryDb: 0.4,
  toReferenceDb: 0.1,
  ...changes,
});

/** Mono in both channels. */
export const monoMeasures = measures({
  correlation: 1,
  sideShare: 0,
  sideToMidDb: null,
  widthKept: 0,
  balanceDb: 0,
  foldDownLossDb: 0,
});

/** A report of the simple rig with real wirings and build sheets and these figures, by routing id. */
export function reportOf(figures: Readonly<Record<string, Measures>>, changes: Partial<Report> = {}): Report {
  const rig = simpleRig({ name: "Quarry shed" });
  const routings = routingsOf(rig).map((routing): RoutingReport => {
    const { id, label, says, wiring, reason, cautions } = routing;
    const found = figures[id] ?? null;
    const isIn = found !== null && wiring !== null;
    return {
      id,
      label,
      says,
      possible: wiring !== null,
      reason,
      matchGainDb: isIn ? -1.7 : null,
      files: isIn ? { stereo: `${id}.wav`, mono: `${id}.mono.wav` } : null,
      measures: found,
      build: isIn ? buildSheet(rig, { wiring, cautions }) : null,
    };
  });
  return {
    answer: answerOf(rig, routingsOf(rig), { reference: "stereo-unit", routings }),
    schemaVersion: reportSchemaVersion,
    rig: { name: rig.name, file: "quarry.yaml", playsInto: rig.playsInto, pedals: [] },
    take: {
      file: "take.wav",
      sha256: "00".repeat(32),
      rateHz: 48_000,
      frames: 720_000,
      channels: 1,
      notices: [],
      measures: monoMeasures,
      matchGainDb: 0.4,
      dryFile: "dry.wav",
    },
    reference: "stereo-unit",
    matching: { on: true, targetLufs: -23, truePeakLimitDbtp: -1 },
    frames: 816_000,
    tailSeconds: 2,
    notes: [
      "A note of the whole comparison, long enough to need a second line on a terminal that is narrow.",
    ],
    routings: routings.filter(({ measures: found }) => found !== null),
    ...changes,
  };
}
