import { measures } from "../sound/measure/measures.js";
import { type Column, columnsText, wrapped } from "../text/columns.js";
import { duration } from "../text/numbers.js";
import { andList } from "../text/words.js";
import type { Range } from "../work/compare/range.js";
import type { TakesReport } from "../work/compare/takesReport.js";
import { answerLead } from "./answerText.js";
import { type AnswerWords, answerWordsOf } from "./answerWords.js";
import { formatted } from "./figureText.js";
import { type Paint, plainPaint } from "./table.js";

/** The answer over several takes: every wiring by the worst that it gives on any. */
export function takesAnswerWords({ answer, rig, takes, routings }: TakesReport): AnswerWords {
  const told = { answer, rig, takes: takes.map(({ file }) => file), routings, remarks: [] };
  const { lead, ...rest } = answerWordsOf(told);
  return { ...rest, lead: [...lead, ...holdsWords(answer.plan?.id ?? null, takes)] };
}

/** Whether each take by itself asks for the same. */
function holdsWords(plan: string | null, takes: TakesReport["takes"]): readonly string[] {
  if (plan === null) return [];
  const others = takes.filter((take) => take.plan !== plan);
  if (others.length === 0) return ["Each take by itself asks for the same wiring."];
  const plans = [...new Set(others.map((take) => take.plan))];
  const words = plans.map((other) => {
    const files = others.filter((take) => take.plan === other).map(({ file }) => file);
    return `${other ?? "none"} on ${andList(files)}`;
  });
  return [`By themselves these takes ask for another wiring: ${words.join("; ")}.`];
}

/** The answer's first lines, then a row a routing: the range of each figure over the takes. */
export function takesText(report: TakesReport, columns: number, paint: Paint = plainPaint): string {
  const takes = report.takes.map(
    ({ file, folder, frames, rateHz, notices }) =>
      `${file}, ${duration(frames / rateHz)}, in ${folder}/${notices.length > 0 ? `: ${notices.join("; ")}` : ""}`,
  );
  return [
    answerLead(takesAnswerWords(report), columns, paint),
    [paint.bold("Takes"), ...takes.map((take) => wrapped(take, columns, 4, "  "))].join("\n"),
    rangesTable(report, columns),
    wrapped(
      "From the least to the most over the takes. * the reference: width kept is compared with it.",
      columns,
    ),
  ].join("\n\n");
}

function rangesTable({ routings, reference }: TakesReport, columns: number): string {
  const shown = measures.flatMap((measure) =>
    measure.shape === "number" && measure.tables.compare
      ? [{ measure, from: measure.tables.compare.fromColumns }]
      : [],
  );
  const rows = routings.flatMap(({ id, ranges }) => {
    const own = shown.map(({ measure: { id: field, format } }) => rangeText(ranges[field] ?? null, format));
    return own.every((text) => text === noRange) ? [] : [{ id, own }];
  });
  // As many figures as there is room for, in their usual order.
  const idWidth = Math.min(24, Math.max(...rows.map(({ id }) => id.length)));
  let used = 3 + idWidth;
  const fit = shown.flatMap(({ measure }, n) => {
    const { id, unit, heading = [id, unit] } = measure;
    const width = Math.max(...heading.map((line) => line.length), ...rows.map(({ own }) => own[n].length));
    used += 2 + width;
    return used <= columns ? [{ n, heading }] : [];
  });
  const layout: Column[] = [
    { heading: ["", ""], align: "left" },
    { heading: ["routing", ""], align: "left", width: idWidth },
    ...fit.map(({ heading }): Column => ({ heading, align: "right" })),
  ];
  return columnsText(
    layout,
    rows.map(({ id, own }) => [id === reference ? "*" : "", id, ...fit.map(({ n }) => own[n])]),
  );
}

const noRange = formatted(null, { fixed: 0 });

function rangeText(range: Range | null, format: Parameters<typeof formatted>[1]): string {
  if (range === null) return noRange;
  const [least, most] = [formatted(range.least, format), formatted(range.most, format)];
  return least === most ? least : `${least}..${most}`;
}
