import { type Measures, measures } from "../sound/measure/measures.js";
import { type Column, columnsText, gap, widest, wrapped } from "../text/columns.js";
import { duration, fixed, signed } from "../text/numbers.js";
import { sentence } from "../text/words.js";
import type { Answer } from "../work/answer/answer.js";
import type { Report, RoutingReport } from "../work/compare/report.js";
import { formatted } from "./figureText.js";
import { remarksOf } from "./remarks.js";

/** How text is set off where a terminal allows it. */
export interface Paint {
  readonly bold: (text: string) => string;
  readonly dim: (text: string) => string;
}
export const plainPaint: Paint = { bold: (text) => text, dim: (text) => text };

interface Figure {
  readonly heading: readonly [string, string];
  readonly of: (measures: Measures, routing: RoutingReport) => string;
  /** Narrower terminals do without, and are told where the figure is. */
  readonly from?: number;
  readonly name?: string;
}

/**
 * The comparison as a person reads it: a row a routing, the reference marked by a star, then what stands out in words.
 * @param columns  width of the terminal; from 80 on it fits, and nothing is cut
 */
export function compareTable(report: Report, columns: number, paint: Paint = plainPaint): string {
  const { rig, take, matching } = report;
  const length = duration(take.frames / take.rateHz);
  const title = `${rig.name}, ${take.file} (${length} and ${duration(report.tailSeconds)} of tail)`;
  return [
    paint.bold(wrapped(title, columns)),
    "",
    figuresText(report, columns),
    "",
    ...legend(report, columns).map((line) => wrapped(line, columns, 2)),
    "",
    paint.bold("What stands out"),
    remarksText(report, columns),
    ...report.notes.map((note) => wrapped(note, columns, 2)),
    matching.on
      ? wrapped(
          `Files are matched to ${fixed(matching.targetLufs, 1)} LUFS, so that louder does not win.`,
          columns,
        )
      : "Files are not matched: they are as loud as the wiring makes them.",
  ].join("\n");
}

/** As many figures as there is room for: those of wide terminals go first, the widest of them before others. */
function shownFigures(report: Report, columns: number): readonly Figure[] {
  const currency = report.routings.find(({ build }) => build !== null)?.build?.currency ?? "";
  let shown = figures(currency, report.answer).filter(({ from }) => (from ?? 0) <= columns);
  while (figuresTable(report, shown, columns).width > columns) {
    const most = Math.max(...shown.map(({ from }) => from ?? 0));
    const last = shown.findIndex(({ from }) => from === most);
    if (last < 0) break;
    shown = shown.filter((_, n) => n !== last);
  }
  return shown;
}

const figuresText = (report: Report, columns: number): string =>
  figuresTable(report, shownFigures(report, columns), columns).text;

function figuresTable(report: Report, shown: readonly Figure[], columns: number) {
  const rows = report.routings.flatMap((routing) => {
    const { id, measures } = routing;
    const mark = id === report.reference ? "*" : "";
    return measures === null ? [] : [[mark, id, ...shown.map((figure) => figure.of(measures, routing))]];
  });
  const used = shown.reduce((sum, { heading }, n) => {
    return sum + gap + widest([...heading, ...rows.map((row) => row[n + 2])]);
  }, 1 + gap);
  const width = Math.min(widest(["routing", ...rows.map((row) => row[1])]), Math.max(14, columns - used));
  const layout: Column[] = [
    { heading: ["", ""], align: "left" },
    { heading: ["routing", ""], align: "left", width },
    ...shown.map(({ heading }): Column => ({ heading, align: "right" })),
  ];
  const text = columnsText(layout, rows);
  return { text, width: Math.max(...text.split("\n").map((line) => line.length)) };
}

function figures(currency: string, answer: Answer): readonly Figure[] {
  return [
    ...measures.flatMap((measure): Figure[] => {
      if (measure.shape !== "number" || !measure.tables.compare) return [];
      const { id, name, unit, heading = [name, unit], format } = measure;
      const { fromColumns } = measure.tables.compare;
      return [{ heading, of: (found) => formatted(found[id], format), from: fromColumns, name }];
    }),
    { heading: ["match", "dB"], of: (_measures, { matchGainDb }) => signed(matchGainDb, 1) },
    { heading: ["to buy", currency], of: (_measures, { build }) => priceText(build) },
    ...(answer.held.some(({ asks }) => asks.length > 0)
      ? [
          {
            heading: ["asks", "kept"],
            of: (_measures, { id }) => asksText(answer, id),
            from: 88,
            name: "asks kept",
          } satisfies Figure,
        ]
      : []),
  ];
}

/** `4/5`: so many of the asks are kept for sure. */
function asksText({ held }: Answer, id: string): string {
  const asks = held.find((each) => each.id === id)?.asks;
  return asks ? `${asks.filter(({ keeps }) => keeps === true).length}/${asks.length}` : fixed(null, 0);
}

/** A price that leaves something out is marked by "+". */
function priceText(build: RoutingReport["build"]): string {
  if (build === null) return fixed(null, 0);
  return `${fixed(build.price, 0)}${build.price !== null && build.priceUnknown.length > 0 ? "+" : ""}`;
}

function legend(report: Report, columns: number): readonly string[] {
  const shown = new Set(shownFigures(report, columns).map(({ name }) => name));
  const left = figures("", report.answer).flatMap(({ name }) => (name && !shown.has(name) ? [name] : []));
  const unpriced = report.routings.some(({ build }) => (build?.priceUnknown.length ?? 0) > 0);
  return [
    ...(report.reference === null ? [] : ["* the reference: width kept and tone are compared with it"]),
    ...(report.reference === null
      ? []
      : ["The answer takes width with both sides at one level, so that a lean counts for none."]),
    ...(unpriced ? ["+ or - under to buy: a price of something to buy is not given in the rig"] : []),
    ...(left.length > 0 ? [`Left out for want of room: ${left.join(", ")}; see report.csv.`] : []),
  ];
}

function remarksText(report: Report, columns: number): string {
  const remarks = remarksOf(report);
  const idWidth = Math.max(...report.routings.map(({ id }) => id.length));
  const isNarrow = idWidth > columns / 4;
  return report.routings
    .map(({ id, label }) => {
      const said = (remarks.get(id) ?? []).join("; ");
      const words = said === "" ? " Nothing stands out." : ` ${sentence(said)}`;
      return isNarrow
        ? wrapped(`${label}.${words}`, columns, 4, `${id}: `)
        : wrapped(`${label}.${words}`, columns, idWidth + 2, `${id.padEnd(idWidth)}  `);
    })
    .join("\n");
}
