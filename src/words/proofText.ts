import { columnsText, widest, wrapped } from "../text/columns.js";
import { fixed } from "../text/numbers.js";
import { ended } from "../text/words.js";
import type { ProofReport } from "../work/proof/proofReport.js";
import { benchCautions } from "./benchCautions.js";
import { basisWords, checkWords, faultWords, notToldWords, verdictWords } from "./proofWords.js";
import { recordingWords } from "./recordingWords.js";
import { type Paint, plainPaint } from "./table.js";

/** The sheet of a proof as a person reads it in a terminal. */
export function proofText(report: ProofReport, columns: number, paint: Paint = plainPaint): string {
  const { rig, plan, faults } = report;
  const list = (lines: readonly string[]) =>
    lines.map((line) => wrapped(line, columns, 4, "  - ")).join("\n");
  const untold = notToldWords(report);
  const notices = report.recordings.flatMap(({ file, notices: own }) =>
    own.map((notice) => `${file}: ${ended(notice)}`),
  );
  return [
    paint.bold(wrapped(`${rig.name}, ${plan.id}: ${plan.label}`, columns)),
    wrapped(verdictWords(report), columns),
    ...(faults.length > 0 ? [list(faultWords(report))] : []),
    checksTable(report, columns),
    ...(untold.length > 0 ? [`These recordings do not tell:\n${list(untold)}`] : []),
    recordingsTable(report),
    list([...notices, ...basisWords(report)]),
    `Mind, before a tone sounds again:\n${list(benchCautions)}`,
  ].join("\n\n");
}

function checksTable({ checks, faults }: ProofReport, columns: number): string {
  const rows = checks
    .map((check) => checkWords(check, faults.length))
    .map(({ what, wanted, found, passes }) => [what, wanted, found, passes]);
  const passes = 8;
  const wanted = Math.min(18, widest(["wanted", ...rows.map((row) => row[1])]));
  const rest = columns - wanted - passes - 6;
  const what = Math.min(Math.ceil(rest / 2), widest(rows.map((row) => row[0])));
  return columnsText(
    [
      { heading: ["check"], align: "left", width: what },
      { heading: ["wanted"], align: "left", width: wanted },
      {
        heading: ["found"],
        align: "left",
        width: Math.min(rest - what, widest(["found", ...rows.map((row) => row[2])])),
      },
      { heading: ["passes"], align: "left", width: passes },
    ],
    rows,
  );
}

function recordingsTable({ recordings }: ProofReport): string {
  const rows = recordings.map(({ file, off, feed, levelDbfs }) => [
    file,
    recordingWords({ offLabels: off, feed }),
    levelDbfs.map((level) => fixed(level, 1)).join(" / "),
  ]);
  return columnsText(
    [
      { heading: ["recording", ""], align: "left" },
      { heading: ["with", ""], align: "left" },
      { heading: ["level", "dBFS"], align: "left" },
    ],
    rows,
  );
}
