import type { Report } from "../work/compare/report.js";
import { answerWords } from "./answerWords.js";

/** The answer as plain text, for who cannot run the page; whoever shows it breaks its lines. */
export function plainAnswer(report: Report): string {
  const { lead, parts } = answerWords(report);
  const lists = parts.map(({ heading, items }) => [heading, ...items.map((item) => `- ${item}`)].join("\n"));
  return [...lead, ...lists].join("\n\n");
}

/** What a page with a comparison is called. */
export const pageTitle = (rigName: string): string => `${rigName}: ways to wire it`;

/** What stands in a page without a comparison, where its script may not run. */
export const plainBench =
  "A bench on which a pedal rig is put together, heard in every wiring, measured and sent. It works where its script may run: open the file in a browser.";
export const benchTitle = "A bench for pedal rigs";
