import { soundOf } from "../../sound/measure/fill.js";
import type { Results } from "../../work/compare/assembleReport.js";
import type { Report, RoutingReport } from "../../work/compare/report.js";

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
): Pick<Results, "recordings" | "readings"> & { readonly recordedReference: string | null } {
  if (sha256 !== take.sha256) return { recordings: [], readings: [], recordedReference: null };
  const found = routings.flatMap(({ id, label, measures, recorded }) =>
    recorded && measures
      ? [{ recording: { id, label, facts: recorded }, reading: { id, sound: soundOf(measures), rig: null } }]
      : [],
  );
  return {
    recordings: found.map(({ recording }) => recording),
    readings: found.map(({ reading }) => reading),
    recordedReference: found.find(({ reading }) => reading.id === reference)?.reading.id ?? null,
  };
}
