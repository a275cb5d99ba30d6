import { wrapped } from "../text/columns.js";
import type { Report } from "../work/compare/report.js";
import { answerWords } from "./answerWords.js";
import { type Paint, plainPaint } from "./table.js";

/** The answer as plain text, to be read in a terminal or pasted into a reply. */
export function answerText(report: Report, columns: number): string {
  const words = answerWords(report);
  const item = (text: string) => wrapped(text, columns, 4, "  - ");
  return [
    ...words.lead.map((text) => wrapped(text, columns)),
    ...words.parts.map(({ heading, items }) => [heading, ...items.map(item)].join("\n")),
  ].join("\n\n");
}

/** Its first lines: which wiring, in figures, and the next best. */
export function answerLead(report: Report, columns: number, paint: Paint = plainPaint): string {
  const [first, ...rest] = answerWords(report).lead;
  return [paint.bold(wrapped(first, columns)), ...rest.map((text) => wrapped(text, columns))].join("\n");
}
