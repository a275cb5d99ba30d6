import type { Rig } from "../../rig/model/rig.js";
import { modelOf } from "../../rig/pedals/models.js";
import type { RoutingChoice } from "../../rig/routings/chooseRoutings.js";
import { asGivenId, type Routing } from "../../rig/routings/routing.js";
import { buildSheet } from "../../rig/wiring/buildSheet.js";
import { dryId } from "../../rig/wiring/dryWiring.js";
import { loadingNote } from "../../rig/wiring/loadingNote.js";
import type { Take } from "../../sound/audio/take.js";
import { measuresOf } from "../../sound/measure/fill.js";
import type { Measures } from "../../sound/measure/measures.js";
import { answerOf } from "../answer/answer.js";
import { type Recording, recordedSays } from "../recordings/recording.js";
import type { Reading } from "../render/reading.js";
import { type MatchedLevels, truePeakLimitDbtp } from "./matchedLevels.js";
import { rangeOf } from "./range.js";
import { type Report, type RoutingReport, reportSchemaVersion } from "./report.js";

/** What a comparison found. Plain data: the page assembles its report from the same. */
export interface Results {
  readonly rig: Rig;
  /** Names without folders. */
  readonly rigFile: string | null;
  readonly take: Pick<Take, "file" | "sha256" | "rateHz" | "frames" | "channels" | "notices">;
  readonly choice: RoutingChoice;
  readonly frames: number;
  /** Of the dry take, the routings that are possible, recordings of the real rig. */
  readonly readings: readonly Reading[];
  /** Of routings in which LFOs run free of each other: the same at other phases, by id. */
  readonly phases?: ReadonlyMap<string, readonly Reading[]>;
  readonly levels: MatchedLevels;
  readonly names: ReadonlyMap<string, string>;
  readonly recordings: readonly Omit<Recording, "channels">[];
  /** What width and tone are compared with, where that is a recording; else the choice's reference. */
  readonly recordedReference?: string | null;
}

/** Everything that was found, as one report. */
export function assembleReport(results: Results): Report {
  const { rig, rigFile, take, choice, frames, readings, levels, names } = results;
  const soundOf = (id: string) => readings.find((reading) => reading.id === id)?.sound ?? null;
  const referenceId = results.recordedReference ?? choice.reference?.id ?? null;
  const others = { reference: referenceId === null ? null : soundOf(referenceId), dry: soundOf(dryId) };
  const compared = new Map(
    readings.map(({ id, sound, rig: ofRig }) => [id, measuresOf(sound, ofRig, others)] as const),
  );
  const routings = [
    ...choice.routings.map((routing) => routingReport(routing, results, compared)),
    ...results.recordings.map((recording) => recordedReport(recording, results, compared)),
  ];
  const ofTheRig = choice.routings.filter(({ keptFrom }) => keptFrom === undefined);
  return {
    schemaVersion: reportSchemaVersion,
    rig: {
      name: rig.name,
      file: rigFile,
      playsInto: rig.playsInto,
      pedals: rig.pedals.map(({ name, model, jacks, settings }) => ({ name, model, jacks, settings })),
    },
    take: {
      file: take.file,
      sha256: take.sha256,
      rateHz: take.rateHz,
      frames: take.frames,
      channels: take.channels,
      notices: take.notices,
      measures: compared.get(dryId)!,
      matchGainDb: levels.gainDb.get(dryId) ?? null,
      dryFile: `${names.get(dryId)}.wav`,
    },
    reference: referenceId,
    matching: { on: levels.on, targetLufs: levels.targetLufs, truePeakLimitDbtp },
    frames,
    tailSeconds: Math.max(0, frames - take.frames) / take.rateHz,
    notes: notesOf(rig, choice.routings),
    routings,
    answer: answerOf(rig, ofTheRig, {
      reference: referenceId,
      routings,
      take: { measures: compared.get(dryId)! },
    }),
  };
}

type Compared = ReadonlyMap<string, Measures>;

function recordedReport(
  { id, label, facts }: Omit<Recording, "channels">,
  results: Results,
  compared: Compared,
): RoutingReport {
  return {
    id,
    label,
    says: recordedSays(facts),
    possible: true,
    reason: null,
    ...soundReport(id, results.names.get(id) ?? id, results, compared),
    build: null,
    recorded: facts,
  };
}

function routingReport(routing: Routing, results: Results, compared: Compared): RoutingReport {
  const { id, label, says, wiring, reason, cautions } = routing;
  const name = results.names.get(id);
  const facts = { id, label, says, possible: wiring !== null, reason };
  if (!wiring || !name) return { ...facts, matchGainDb: null, files: null, measures: null, build: null };
  return {
    ...facts,
    ...soundReport(id, name, results, compared),
    ...phaseRanges(id, results),
    build: buildSheet(routing.keptFrom ?? results.rig, { wiring, cautions }),
  };
}

/** What chance gives where LFOs run free: the ranges over their phases. */
function phaseRanges(id: string, { readings, phases }: Results): Pick<RoutingReport, "overPhases"> {
  const others = phases?.get(id) ?? [];
  const own = readings.find((reading) => reading.id === id);
  if (!own || others.length === 0) return {};
  const all = [own, ...others].map(({ sound }) => sound);
  return {
    overPhases: {
      sideShare: rangeOf(all.map(({ sideShare }) => sideShare)),
      foldDownLossDb: rangeOf(all.map(({ foldDownLossDb }) => foldDownLossDb)),
      balanceDb: rangeOf(all.map(({ balanceDb }) => balanceDb)),
    },
  };
}

const soundReport = (id: string, name: string, { levels }: Results, compared: Compared) => ({
  matchGainDb: levels.gainDb.get(id) ?? null,
  files: { stereo: `${name}.wav`, mono: `${name}.mono.wav` },
  measures: compared.get(id) ?? null,
});

/** What a reader must know of the figures of this rig as a whole. */
function notesOf(rig: Rig, routings: readonly Routing[]): readonly string[] {
  const models = rig.pedals.map(({ model }) => modelOf(model));
  return [
    ...(routings[0]?.id === asGivenId ? [routings[0].says] : []),
    loadingNote(
      rig,
      routings.flatMap(({ wiring }) => wiring ?? []),
    ),
    ...(models.some((model) => model.changesInTime)
      ? [
          "Decay is read from one impulse at the start of the LFOs; pedals that move give another at another moment.",
        ]
      : []),
    ...(models.some((model) => model.nonlinear)
      ? ["Decay and wet-to-dry are for this level: a drive or compressor in the rig makes them depend on it."]
      : []),
  ];
}
