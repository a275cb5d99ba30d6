import { readdirSync } from "node:fs";
import { join } from "node:path";
import { count } from "../text/numbers.js";
import type { Report } from "../work/compare/report.js";
import { commandLine } from "./calledAs.js";

/** How the comparison was called. */
export interface Called {
  readonly rigFile: string;
  readonly takeFiles: readonly string[];
  /** Options that `answer` and `options` have too, as they were written: without them the answer is another. */
  readonly answerWords: readonly string[];
  readonly optionsWords: readonly string[];
}

/** Nothing for a rig from standard input, which is gone. */
const nextText = ({ rigFile, takeFiles, answerWords, optionsWords }: Called): readonly string[] =>
  rigFile === "-"
    ? []
    : [
        `The whole answer, to paste into a reply: ${commandLine("answer", rigFile, ...takeFiles, ...answerWords)}`,
        `Patch lists and parts: ${commandLine("options", rigFile, ...optionsWords)}`,
      ];

/** What was written, and what to do next. */
export function closingText(report: Report, outDir: string, files: Called): string {
  const names = readdirSync(outDir).filter((name) => !name.startsWith("."));
  const sounds = names.filter((name) => name.endsWith(".wav"));
  const reports = names.filter((name) => name.startsWith("report."));
  const start = report.routings.find(({ id }) => id === report.reference)?.files?.stereo;
  const page = join(outDir, "report.html");
  return [
    `Written to ${outDir}: ${[count(sounds.length, "sound file"), ...reports].join(", ")}.`,
    ...(reports.includes("report.html") ? [`Open ${page} to hear and compare.`] : []),
    `${start ? `${join(outDir, start)} is the reference; ` : ""}NAME.mono.wav is what a mono desk gives.`,
    ...(names.includes("reel.wav")
      ? [`${join(outDir, "reel.wav")} plays all choices one after the other; reel.txt has the start times.`]
      : []),
    "Turn the volume down before you play: loud sound harms hearing for good.",
    ...nextText(files),
  ].join("\n");
}

/** The same of several takes. */
export const takesClosing = (outDir: string, files: Called): string =>
  [
    `Written to ${outDir}: report.html, takes.json, takes.csv, and a folder of sounds and a report for each take.`,
    `Open ${join(outDir, "report.html")} to hear and compare; the take is chosen there.`,
    "Turn the volume down before you play: loud sound harms hearing for good.",
    ...nextText(files),
  ].join("\n");
