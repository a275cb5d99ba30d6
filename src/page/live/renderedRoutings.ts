import type { Report, RoutingReport } from "../../work/compare/report.js";
import type { RecordedReading } from "../../work/recordings/recording.js";

/** Routings of a report that a page renders by itself: all but recordings of the real rig. */
export const renderedRoutings = ({ routings }: Report): readonly RoutingReport[] =>
  routings.filter(({ recorded }) => !recorded);

/** The reference, where it is a routing that the page renders; null for a recording. */
export const renderedReference = (report: Report): string | null =>
  renderedRoutings(report).some(({ id }) => id === report.reference) ? report.reference : null;

/**
 * Recordings as the report has them, to stand beside what a page renders anew: they belong to the take that was played,
 * and to no other.
 */
export function recordingsFor(
  { routings, reference, take }: Report,
  sha256: string,
): { readonly recordings: readonly RecordedReading[]; readonly recordedReference: string | null } {
  if (sha256 !== take.sha256) return { recordings: [], recordedReference: null };
  const recordings = routings.flatMap(({ id, label, measures, recorded }) =>
    recorded && measures ? [{ id, label, measures, facts: recorded }] : [],
  );
  return { recordings, recordedReference: recordings.find(({ id }) => id === reference)?.id ?? null };
}
