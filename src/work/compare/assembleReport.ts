import type { Rig } from "../../rig/model/rig.js";
import { modelOf } from "../../rig/pedals/models.js";
import type { Choice } from "../../rig/routings/chooseRoutings.js";
import type { Routing } from "../../rig/routings/routing.js";
import { buildSheet } from "../../rig/wiring/buildSheet.js";
import { combOf } from "../../rig/wiring/dryPaths.js";
import { dryId } from "../../rig/wiring/dryWiring.js";
import type { Take } from "../../sound/audio/take.js";
import type { Measures } from "../../sound/measure/measures.js";
import { type References, withReference } from "../../sound/measure/withReference.js";
import { type RecordedReading, recordedSays } from "../recordings/recording.js";
import { type Levels, truePeakLimitDbtp } from "./levels.js";
import type { Reading } from "./renderPart.js";
import { type Report, type RoutingReport, reportSchemaVersion } from "./report.js";

/** What a comparison found. Plain data: the page assembles its report from the same. */
export interface Results {
  readonly rig: Rig;
  /** Names without folders. */
  readonly rigFile: string | null;
  readonly take: Pick<Take, "file" | "sha256" | "rateHz" | "frames" | "channels" | "notices">;
  readonly choice: Choice;
  readonly frames: number;
  readonly readings: readonly Reading[];
  readonly levels: Levels;
  readonly names: ReadonlyMap<string, string>;
  /** Recordings of the real rig, to stand beside the routings. */
  readonly recordings?: readonly RecordedReading[];
  /** What width and tone are compared with, where that is a recording; else the choice's reference. */
  readonly recordedReference?: string | null;
}

/** Everything that was found, as one report. */
export function assembleReport(results: Results): Report {
  const { rig, rigFile, take, choice, frames, levels, names, recordings = [] } = results;
  const byId = new Map(results.readings.map((reading) => [reading.id, reading]));
  const dry = byId.get(dryId)!;
  const referenceId = results.recordedReference ?? choice.reference?.id ?? null;
  const compared = [...results.readings, ...recordings].find(({ id }) => id === referenceId);
  const reference = compared?.measures ?? null;
  const measured = (id: string, comb: Measures["comb"]): Measures | null => {
    const reading = byId.get(id);
    if (!reading) return null;
    return withReference(withWiring(reading, comb), { reference, dry: dry.measures });
  };
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
      measures: measured(dryId, null)!,
      matchGainDb: levels.gainDb.get(dryId) ?? null,
      dryFile: `${names.get(dryId)}.wav`,
    },
    reference: referenceId,
    matching: { on: levels.on, targetLufs: levels.targetLufs, truePeakLimitDbtp },
    frames,
    tailSeconds: Math.max(0, frames - take.frames) / take.rateHz,
    notes: notesOf(rig, choice.routings),
    routings: [
      ...choice.routings.map((routing) => routingReport(routing, results, measured)),
      ...recordings.map((recording) => recordedReport(recording, results, { reference, dry: dry.measures })),
    ],
  };
}

function recordedReport(
  { id, label, facts, measures }: RecordedReading,
  { levels, names }: Results,
  references: References,
): RoutingReport {
  const name = names.get(id) ?? id;
  return {
    id,
    label,
    says: recordedSays(facts),
    possible: true,
    reason: null,
    matchGainDb: levels.gainDb.get(id) ?? null,
    files: { stereo: `${name}.wav`, mono: `${name}.mono.wav` },
    measures: withReference(measures, references),
    build: null,
    recorded: facts,
  };
}

function routingReport(
  routing: Routing,
  { rig, levels, names }: Results,
  measured: (id: string, comb: Measures["comb"]) => Measures | null,
): RoutingReport {
  const { id, label, says, wiring, reason, cautions } = routing;
  const name = names.get(id);
  const facts = { id, label, says, possible: wiring !== null, reason };
  if (!wiring || !name) return { ...facts, matchGainDb: null, files: null, measures: null, build: null };
  return {
    ...facts,
    matchGainDb: levels.gainDb.get(id) ?? null,
    files: { stereo: `${name}.wav`, mono: `${name}.mono.wav` },
    measures: measured(id, combOf(wiring)),
    build: buildSheet(rig, { wiring, cautions }),
  };
}

/** The meter's measures with those that only a wiring gives. */
function withWiring(
  { measures, wetToDryDb, wetToDryReason, decay }: Reading,
  comb: Measures["comb"],
): Measures {
  const { wetToDryDb: _wet, decay: _decay, comb: _comb, ...reasons } = measures.reasons;
  return {
    ...measures,
    wetToDryDb,
    comb,
    decay: decay.decay,
    reasons: {
      ...reasons,
      ...decay.reasons,
      ...(wetToDryReason ? { wetToDryDb: wetToDryReason } : {}),
      ...(comb ? {} : { comb: "no late copy of the dry signal meets it" }),
    },
  };
}

/** What a reader must know of the figures of this rig as a whole. */
function notesOf(rig: Rig, routings: readonly Routing[]): readonly string[] {
  const models = rig.pedals.map(({ model }) => modelOf(model));
  return [
    ...(routings[0]?.id === "as-given" ? [routings[0].says] : []),
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
