import { join } from "node:path";
import { count } from "../report/numbers.js";
import type { Report } from "../report/report.js";

/** What was written, and what to do next. */
export function closingText(report: Report, outDir: string, rigFile: string): string {
  const possible = report.routings.filter(({ files }) => files !== null);
  const sounds = possible.length * 2 + (report.take.dryFile === null ? 0 : 1);
  const start = possible.find(({ id }) => id === report.reference) ?? possible[0];
  const hear = start?.files ? `Start with ${join(outDir, start.files.stereo)}, the reference; ` : "";
  return [
    `Written to ${outDir}: ${count(sounds, "sound file")}, report.json, report.csv.`,
    `${hear}NAME.mono.wav is what a mono desk gives.`,
    "Turn the volume down before you play: loud sound harms hearing for good.",
    `Patch lists and parts: splitsum options ${rigFile}`,
  ].join("\n");
}
