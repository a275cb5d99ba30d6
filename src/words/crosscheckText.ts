import { columnsText, widest, wrapped } from "../text/columns.js";
import { duration, fixed } from "../text/numbers.js";
import { ended } from "../text/words.js";
import type { CrosscheckedRouting } from "../work/crosscheck/crosscheck.js";
import type { CrosscheckReport } from "../work/crosscheck/crosscheckReport.js";
import {
  balanceWords,
  comparedWords,
  judgedWords,
  limitWords,
  skippedByReason,
  verdictWords,
} from "./crosscheckWords.js";
import { type Paint, plainPaint } from "./table.js";

/** A cross-check as a person reads it: what was compared and how, a row a routing, and why the rest was not. */
export function crosscheckText(report: CrosscheckReport, columns: number, paint: Paint = plainPaint): string {
  const { rig, take, routings, against } = report;
  const played = duration(take.playedFrames / take.rateHz);
  const length = duration(take.frames / take.rateHz);
  const part = take.playedFrames < take.frames ? `the first ${played} of ${length}` : length;
  const compared = routings.filter(({ skipped }) => skipped === null);
  return [
    paint.bold(wrapped(`${rig.name}, ${take.file} (${part})`, columns)),
    ...(compared.length > 0 ? [wrapped(comparedWords(against), columns), table(compared)] : []),
    ...leadAndLines(judgedWords(routings), columns),
    ...leadAndLines(balanceWords(routings, against), columns),
    ...notCompared(routings, columns),
    wrapped(verdictWords(routings), columns),
  ].join("\n\n");
}

function table(compared: readonly CrosscheckedRouting[]): string {
  const rows = compared.map((routing) => [
    routing.id,
    routing.rmsDbfs === null ? "none" : fixed(routing.rmsDbfs, 1),
    routing.peakDbfs === null ? "none" : fixed(routing.peakDbfs, 1),
    fixed(routing.targetDbfs, 1),
    limitWords(routing),
  ]);
  return columnsText(
    [
      { heading: ["routing", ""], align: "left", width: widest(["routing", ...rows.map(([id]) => id)]) },
      { heading: ["RMS", "dBFS"], align: "right" },
      { heading: ["peak", "dBFS"], align: "right" },
      { heading: ["RMS at most", "dBFS"], align: "right" },
      { heading: ["limit set by", ""], align: "left" },
    ],
    rows,
  );
}

function leadAndLines([lead, ...lines]: readonly string[], columns: number): readonly string[] {
  if (lead === undefined) return [];
  return [[wrapped(lead, columns), ...lines.map((line) => wrapped(line, columns, 4, "  "))].join("\n")];
}

function notCompared(routings: readonly CrosscheckedRouting[], columns: number): readonly string[] {
  const lines = skippedByReason(routings).map(({ reason, routings: sharing }) =>
    wrapped(`${sharing.map(({ id }) => id).join(", ")}: ${ended(reason)}`, columns, 4, "  "),
  );
  return lines.length === 0 ? [] : [["Not compared:", ...lines].join("\n")];
}
