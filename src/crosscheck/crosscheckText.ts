import { columnsText, widest, wrapped } from "../report/columns.js";
import { count, duration, fixed } from "../report/numbers.js";
import { type Paint, plainPaint } from "../report/table.js";
import type { CrosscheckedRouting } from "./crosscheck.js";
import { type CrosscheckReport, missed } from "./crosscheckReport.js";

/** A cross-check as a person reads it: what was compared and how, a row a routing, and why the rest was not. */
export function crosscheckText(report: CrosscheckReport, columns: number, paint: Paint = plainPaint): string {
  const { rig, take, routings } = report;
  const played = duration(take.playedFrames / take.rateHz);
  const length = duration(take.frames / take.rateHz);
  const part = take.playedFrames < take.frames ? `the first ${played} of ${length}` : length;
  const compared = routings.filter(({ skipped }) => skipped === null);
  return [
    paint.bold(wrapped(`${rig.name}, ${take.file} (${part})`, columns)),
    ...(compared.length > 0 ? [wrapped(how(report), columns), table(compared)] : []),
    ...notCompared(routings, columns),
    wrapped(verdict(report), columns),
  ].join("\n\n");
}

const how = ({ against }: CrosscheckReport): string =>
  `Each routing twice, tail included: by splitsum's engine, and as a graph of standard nodes (W3C Web Audio API) by ${against}. Swinging delays are read by straight lines in both, as the standard has it; elsewhere splitsum reads them by cubics. Difference of the two, a full-scale sine at 0:`;

function table(compared: readonly CrosscheckedRouting[]): string {
  const rows = compared.map(({ id, rmsDbfs, peakDbfs, targetDbfs, timeInvariant, withinTarget }) => [
    id,
    rmsDbfs === null ? "none" : fixed(rmsDbfs, 1),
    rmsDbfs === null ? "none" : fixed(peakDbfs, 1),
    fixed(targetDbfs, 0),
    `${timeInvariant ? "nothing swings" : "something swings"}${withinTarget ? "" : ", MISSED"}`,
  ]);
  return columnsText(
    [
      { heading: ["routing", ""], align: "left", width: widest(["routing", ...rows.map(([id]) => id)]) },
      { heading: ["RMS", "dBFS"], align: "right" },
      { heading: ["peak", "dBFS"], align: "right" },
      { heading: ["RMS at most", "dBFS"], align: "right" },
      { heading: ["", ""], align: "left" },
    ],
    rows,
  );
}

/** Routings with one reason share one paragraph. */
function notCompared(routings: readonly CrosscheckedRouting[], columns: number): readonly string[] {
  const byReason = new Map<string, string[]>();
  for (const { id, skipped } of routings) {
    if (skipped !== null) byReason.set(skipped, [...(byReason.get(skipped) ?? []), id]);
  }
  if (byReason.size === 0) return [];
  const lines = [...byReason].map(([reason, ids]) =>
    wrapped(`${ids.join(", ")}: ${reason}.`, columns, 4, "  "),
  );
  return [["Not compared:", ...lines].join("\n")];
}

function verdict(report: CrosscheckReport): string {
  const compared = report.routings.filter(({ skipped }) => skipped === null).length;
  const { length: misses } = missed(report);
  if (compared === 0) return "Nothing could be compared.";
  const of = `${count(compared, "routing")} compared`;
  return misses === 0
    ? `${of}, all within what they may differ.`
    : `${of}, ${misses} further apart than they may be.`;
}
