import type { Rig } from "../../rig/model/rig.js";
import type { Routing } from "../../rig/routings/routing.js";
import { type NumberId, numberMeasures } from "../../sound/measure/measures.js";
import { type Answer, answerOf } from "../answer/answer.js";
import { type Range, rangeOf } from "./range.js";
import type { Report } from "./report.js";

const takesSchemaVersion = 1;

/** One rig on several takes: `takes.json` is this object. */
export interface TakesReport {
  readonly schemaVersion: typeof takesSchemaVersion;
  readonly rig: Report["rig"];
  readonly takes: readonly ComparedTake[];
  readonly reference: string | null;
  readonly routings: readonly RangedRouting[];
  /** Each wiring counted by the worst that it gives on any of the takes. */
  readonly answer: Answer;
}

export interface ComparedTake
  extends Pick<Report["take"], "file" | "sha256" | "rateHz" | "frames" | "notices"> {
  /** Where its sounds and its own report are, beside this file. */
  readonly folder: string;
  /** What would be built for this take alone; null where nothing can be. */
  readonly plan: string | null;
}

export interface RangedRouting
  extends Pick<Report["routings"][number], "id" | "label" | "says" | "possible" | "reason" | "build"> {
  /** The least and the most over the takes; null where a take does not have the figure, or the routing was not rendered. */
  readonly ranges: Readonly<Partial<Record<NumberId, Range | null>>>;
}

/** A comparison of one take, and the folder of its files. */
export interface TakeReport {
  readonly report: Report;
  readonly folder: string;
}

/** @param reports  of one rig and one choice of routings; at least one */
export function takesReport(
  rig: Rig,
  routings: readonly Routing[],
  reports: readonly [TakeReport, ...TakeReport[]],
): TakesReport {
  const [{ report: first }, ...others] = reports;
  return {
    schemaVersion: takesSchemaVersion,
    rig: first.rig,
    takes: reports.map(({ report: { take, answer }, folder }) => ({
      file: take.file,
      sha256: take.sha256,
      rateHz: take.rateHz,
      frames: take.frames,
      notices: take.notices,
      folder,
      plan: answer.plan?.id ?? null,
    })),
    reference: first.reference,
    routings: first.routings.map(({ id, label, says, possible, reason, build }) => ({
      id,
      label,
      says,
      possible,
      reason,
      build,
      ranges: rangesOf(
        id,
        reports.map(({ report }) => report),
      ),
    })),
    answer: answerOf(
      rig,
      routings,
      first,
      others.map(({ report }) => report),
    ),
  };
}

function rangesOf(id: string, reports: readonly Report[]): RangedRouting["ranges"] {
  const found = reports.map(
    ({ routings }) => routings.find((routing) => routing.id === id)?.measures ?? null,
  );
  const entries = numberMeasures.map(({ id: field }) => {
    const range = rangeOf(found.map((each) => each?.[field] ?? null));
    return [field, range] as const;
  });
  return Object.fromEntries(entries);
}
