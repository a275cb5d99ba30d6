import type { Rig } from "../../rig/model/rig.js";
import { dryId } from "../../rig/wiring/dryWiring.js";
import type { Take } from "../../sound/audio/take.js";
import type { LevelReading } from "../../sound/measure/match.js";
import { assembleReport } from "../../work/compare/assembleReport.js";
import type { Report } from "../../work/compare/report.js";
import type { RenderedFigures } from "./engine/renders.js";
import type { PageInputs } from "./pageInputs.js";
import { recordingsFor } from "./renderedRoutings.js";

/** A report of what the page rendered, in the words and with the file names of the one that came with it. */
export function freshReport(
  original: Report | null,
  { choice, frames, readings, levels }: RenderedFigures,
  { rig, rigFile, take }: Heard,
): Report {
  const files = (original?.routings ?? []).flatMap(({ id, files }) =>
    files ? [[id, withoutEnd(files.stereo)] as const] : [],
  );
  const own = choice.routings.map(({ id }) => [id, id] as const);
  const recorded = original
    ? recordingsFor(original, take.sha256)
    : { recordings: [], readings: [], recordedReference: null };
  return assembleReport({
    rig,
    rigFile,
    take,
    choice,
    frames,
    ...recorded,
    readings: [...readings, ...recorded.readings],
    levels,
    names: new Map([[dryId, withoutEnd(original?.take.dryFile ?? dryId)], ...own, ...files]),
  });
}

interface Heard {
  readonly rig: Rig;
  /** Name of the rig file. */
  readonly rigFile: string;
  readonly take: Take;
}

/** Levels that the report in the page gives for rig and take as they came with it; none for any others. */
export function knownLevels(
  { data: { report }, inputs }: PageInputs,
  rig: Rig,
  take: Take,
): ReadonlyMap<string, LevelReading> {
  if (!report || rig !== inputs.rig || take.sha256 !== report.take.sha256) return new Map();
  const sounds = [{ id: dryId, measures: report.take.measures }, ...report.routings];
  return new Map(
    sounds.flatMap(({ id, measures }) => {
      if (!measures) return [];
      const { integratedLufs, truePeakDbtp } = measures;
      return [[id, { integratedLufs, truePeakDbtp }]];
    }),
  );
}

const withoutEnd = (name: string): string => name.replace(/\.wav$/, "");
