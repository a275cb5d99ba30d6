import { wrapped } from "../text/columns.js";
import type { AnswerWords } from "./answerWords.js";
import { type Paint, plainPaint } from "./table.js";

/** The answer as plain text, to be read in a terminal or pasted into a reply. */
export function answerText({ lead, parts }: AnswerWords, columns: number): string {
  const item = (text: string) => wrapped(text, columns, 4, "  - ");
  return [
    ...lead.map((text) => wrapped(text, columns)),
    ...parts.map(({ heading, items }) => [heading, ...items.map(item)].join("\n")),
  ].join("\n\n");
}

/** Its first lines: which wiring, in figures, and the next best. */
export function answerLead({ lead }: AnswerWords, columns: number, paint: Paint = plainPaint): string {
  const [first, ...rest] = lead;
  return [paint.bold(wrapped(first, columns)), ...rest.map((text) => wrapped(text, columns))].join("\n");
}
