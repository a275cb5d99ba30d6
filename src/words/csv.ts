import type { BandMeasures, Measures, ThirdMeasures } from "../sound/measure/measures.js";
import type { Report, RoutingReport } from "../work/compare/report.js";

export type Cell = string | number | boolean | null;
type Row = Readonly<Record<string, Cell>>;

/**
 * A report as CSV: one row a routing, the dry take first. Units stand in the headings, numbers in full precision; an
 * empty cell is a figure that does not exist. Commas, CRLF line ends, quotes doubled.
 * Source: RFC 4180 (2005), section 2.
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
  const rows = report.routings.map((routing) => ({ ...common, ...routingCells(routing, reference) }));
  return csvText([dry, ...rows]);
}

/** Rows of a table; the heading is every key of any row, in the order in which they come up. */
export function csvText(rows: readonly Row[]): string {
  const keys = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  const lines = [keys, ...rows.map((row) => keys.map((key) => row[key] ?? null))];
  return lines.map(csvLine).join("");
}

/** One line of a table, with its end. */
export const csvLine = (cells: readonly Cell[]): string => `${cells.map(cellText).join(",")}\r\n`;

/** The figures of one sound, by heading. */
export function measureCells(measures: Measures | null): Row {
  if (measures === null) return {};
  const { correlationOverTime, bands, thirds, decay, comb, reasons, ...plain } = measures;
  return {
    ...plain,
    correlationMedian: correlationOverTime?.median ?? null,
    correlationPercentile5: correlationOverTime?.percentile5 ?? null,
    correlationShareBelowZero: correlationOverTime?.shareBelowZero ?? null,
    edtSeconds: decay?.edtSeconds ?? null,
    t20Seconds: decay?.t20Seconds ?? null,
    t30Seconds: decay?.t30Seconds ?? null,
    combDelayMs: comb?.delayMs ?? null,
    combLevelDb: comb?.levelDb ?? null,
    combInverted: comb?.inverted ?? null,
    combSide: comb?.side ?? null,
    combFirstNotchHz: comb?.notchesHz[0] ?? null,
    ...bandCells("octave", bands),
    ...bandCells("third", thirds),
    reasons: Object.entries(reasons)
      .map(([field, why]) => `${field}: ${why}`)
      .join("; "),
  };
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

/** `octave125HzLevelDb` and the like: every figure of every band. */
function bandCells(prefix: string, bands: readonly (BandMeasures | ThirdMeasures)[]): Row {
  const cells: Record<string, Cell> = {};
  for (const { centreHz, ...figures } of bands) {
    for (const [figure, value] of Object.entries(figures)) {
      cells[`${prefix}${centreHz}Hz${figure.charAt(0).toUpperCase()}${figure.slice(1)}`] = value;
    }
  }
  return cells;
}

function cellText(cell: Cell): string {
  if (cell === null || (typeof cell === "number" && !Number.isFinite(cell))) return "";
  const text = String(cell);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
