import type { Cell, DataColumn } from "../sound/measure/measure.js";
import { measures as list, type Measures } from "../sound/measure/measures.js";
import type { Report, RoutingReport } from "../work/compare/report.js";
import type { TakesReport } from "../work/compare/takesReport.js";

type Row = Readonly<Record<string, Cell>>;

/**
 * A report as CSV: one row a routing, the dry take first. Units stand in the headings, numbers in full precision; an
 * empty cell is a figure that does not exist. Commas, CRLF line ends, quotes doubled; text that begins with = + - @ or a
 * tab gets an apostrophe, so that no spreadsheet takes it for a formula.
 * Source: RFC 4180 (2005), section 2; for formulas OWASP, "CSV Injection" (from memory).
 */
export function csvOf(report: Report): string {
  const { rig, take, reference, schemaVersion } = report;
  const common = {
    schemaVersion,
    rig: rig.name,
    take: take.file,
    takeSha256: take.sha256,
    rateHz: take.rateHz,
  };
  const dry: Row = {
    ...common,
    routing: "dry",
    label: "Dry take",
    possible: true,
    reason: null,
    isReference: false,
    matchGainDb: take.matchGainDb,
    stereoFile: take.dryFile,
    monoFile: null,
    ...measureCells(take.measures),
  };
  const rows = report.routings.map((routing) => ({
    ...common,
    ...routingCells(routing, reference),
    ...askCells(report, routing.id),
  }));
  return csvText([dry, ...rows]);
}

/** Several takes as CSV: one row a routing, the least and the most of each figure over the takes. */
export function csvOfTakes({ rig, takes, reference, routings, schemaVersion }: TakesReport): string {
  return csvText(
    routings.map(({ id, label, possible, reason, ranges }) => ({
      schemaVersion,
      rig: rig.name,
      takes: takes.map(({ file }) => file).join("; "),
      routing: id,
      label,
      possible,
      reason,
      isReference: id === reference,
      ...Object.fromEntries(
        Object.entries(ranges).flatMap(([field, range]) => [
          [`${field}Least`, range?.least ?? null],
          [`${field}Most`, range?.most ?? null],
        ]),
      ),
    })),
  );
}

/** Rows of a table; the heading is every key of any row, in the order in which they come up. */
export function csvText(rows: readonly Row[]): string {
  const keys = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  const lines = [keys, ...rows.map((row) => keys.map((key) => row[key] ?? null))];
  return lines.map(csvLine).join("");
}

/** One line of a table, with its end. */
export const csvLine = (cells: readonly Cell[]): string => `${cells.map(cellText).join(",")}\r\n`;

/** Single numbers first, then groups, then bands. */
const columns = (["number", "group", "bands"] as const).flatMap((shape) =>
  list
    .filter((measure) => measure.shape === shape)
    .flatMap((measure): readonly DataColumn<Measures>[] => measure.columns),
);

/** The figures of one sound, by heading. */
export function measureCells(measures: Measures | null): Row {
  if (measures === null) return {};
  const reasons = Object.entries(measures.reasons).map(([field, why]) => `${field}: ${why}`);
  return {
    ...Object.fromEntries(columns.map(({ id, of }) => [id, of(measures)])),
    reasons: reasons.join("; "),
  };
}

/** By name, where anything is asked: what is kept for sure, given up, and not known. */
function askCells({ answer }: Report, id: string): Row {
  const asks = answer.held.find((each) => each.id === id)?.asks ?? [];
  const named = (keeps: boolean | null) =>
    asks
      .filter((found) => found.keeps === keeps)
      .map(({ ask, unit }) => (unit === null ? ask : `${ask} (${unit})`))
      .join("; ");
  if (asks.length === 0) return {};
  return { asksKept: named(true), asksGivenUp: named(false), asksNotKnown: named(null) };
}

function routingCells(routing: RoutingReport, reference: string | null): Row {
  const { id, label, possible, reason, matchGainDb, files, measures, build, recorded } = routing;
  return {
    routing: id,
    label,
    possible,
    reason,
    isReference: id === reference,
    recordedFile: recorded?.file ?? null,
    recordedLatencyMs: recorded?.latencyMs ?? null,
    matchGainDb,
    stereoFile: files?.stereo ?? null,
    monoFile: files?.mono ?? null,
    ...measureCells(measures),
    extraBoxes: build?.extraBoxes ?? null,
    price: build?.price ?? null,
    currency: build?.currency ?? null,
    boardAreaCm2: build?.boardAreaCm2 ?? null,
  };
}

/** Text that a spreadsheet would compute, whatever its quotes; a number in text is none. */
const beginsFormula = /^(?![-+]?[\d.]+(?:e[-+]?\d+)?$)[=+\-@\t\r]/i;

function cellText(cell: Cell): string {
  if (cell === null || (typeof cell === "number" && !Number.isFinite(cell))) return "";
  const text = typeof cell === "string" && beginsFormula.test(cell) ? `'${cell}` : String(cell);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
