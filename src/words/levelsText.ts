import { columnsText, widest, wrapped } from "../text/columns.js";
import { duration, fixed, noFigure, signed } from "../text/numbers.js";
import { ended, sentence } from "../text/words.js";
import type { LevelsReport, RoutingLevels } from "../work/levels/levelsReport.js";
import type { CableLevel, SumLevel } from "../work/levels/wiringLevels.js";
import { loadingRemarks, loadingTable, notGiven } from "./loadingText.js";
import { type Paint, plainPaint } from "./table.js";

/** Levels as a person reads them: an overview, then every cable of each routing, its sums, and its loading. */
export function levelsText(report: LevelsReport, columns: number, paint: Paint = plainPaint): string {
  const { rig, take, reference, routings } = report;
  const length = duration(take.frames / take.rateHz);
  return [
    paint.bold(wrapped(`${rig.name}, ${take.file} (${length})`, columns)),
    ...takeNotices(take.notices, columns),
    overview(report, columns),
    legend(report, columns),
    ...routings.map((routing) => routingText(routing, reference !== null, columns, paint)),
    ...notGiven(
      routings.map(({ loading }) => loading),
      columns,
    ),
  ].join("\n\n");
}

/** What a take brings with it, clipping above all, no box can mend. */
const takeNotices = (notices: readonly string[], columns: number): readonly string[] =>
  notices.length === 0
    ? []
    : [notices.map((notice) => wrapped(`The take ${ended(notice)}`, columns, 2)).join("\n")];

/** No all-clear on the strength of limits that nobody stated. */
function clipWords({ firstClip, limitUnknown, boxes }: RoutingLevels): string {
  if (firstClip) return `${fixed(firstClip.seconds, 2)} s  ${firstClip.box}`;
  if (limitUnknown.length === 0) return "nothing";
  const others = boxes.filter(({ kind }) => kind !== "take").length - limitUnknown.length;
  return others === 0 ? "not known" : "nothing known";
}

function overview({ routings }: LevelsReport, columns: number): string {
  const rows = routings.map((routing) => {
    const { id, cables, boxes, sums } = routing;
    const room = leastOf(boxes, ({ headroomDb }) => headroomDb);
    const sum = leastOf(sums, ({ headroomDb }) => headroomDb);
    return [
      id,
      fixed(leastOf(cables, ({ peakDbfs }) => (peakDbfs === null ? null : -peakDbfs))?.peakDbfs ?? null, 1),
      room ? `${fixed(room.headroomDb, 1)}  ${room.box}` : noFigure,
      sum ? `${fixed(sum.headroomDb, 1)}  ${sum.box}` : noFigure,
      clipWords(routing),
    ];
  });
  const idWidth = widest(["routing", ...rows.map(([id]) => id)]);
  // What is left after the ids, the loudest level and the gaps, shared by the three columns that name boxes.
  const most = Math.floor((columns - idWidth - 15) / 3);
  const width = (n: number, heading: string) =>
    Math.min(most, widest([heading, ...rows.map((row) => row[n])]));
  return columnsText(
    [
      { heading: ["routing", ""], align: "left" },
      { heading: ["loudest", "dBFS"], align: "right" },
      { heading: ["least room", "dB, at"], align: "left", width: width(2, "least room") },
      { heading: ["of a sum", "dB, at"], align: "left", width: width(3, "of a sum") },
      { heading: ["clips", "first"], align: "left", width: width(4, "clips") },
    ],
    rows,
  );
}

function legend({ reference, loadingNote }: LevelsReport, columns: number): string {
  const scale = reference
    ? `dBu by the rig's reference: a sine of ${fixed(reference.dbfs, 1)} dBFS is ${fixed(reference.dbu, 1)} dBu.`
    : "The rig gives no reference (reference: { dbfs, dbu }), so there is no dBu, and sums are held against full scale.";
  return [
    scale,
    "RMS is over the take, a full-scale sine at 0 dBFS. Room is to the nearest limit that a box states; what clips in the boxes does not clip here.",
    loadingNote,
  ]
    .map((line) => wrapped(line, columns))
    .join("\n");
}

function routingText(routing: RoutingLevels, hasDbu: boolean, columns: number, paint: Paint): string {
  const { id, label, cables, sums, firstClip, limitUnknown, loading, loadingWhenOff } = routing;
  const item = (text: string) => wrapped(text, columns, 4, "  ");
  const table = loadingTable(loading, columns);
  const remarks = loadingRemarks(loading);
  const whenOff = loadingRemarks({ ...loadingWhenOff, splits: [] }).filter(
    (remark) => !remarks.includes(remark),
  );
  return [
    paint.bold(`${id}: ${label}`),
    cablesTable(cables, hasDbu, columns),
    ...sums.map((sum) => item(sumText(sum))),
    ...(firstClip
      ? [
          item(
            `First to clip: the ${firstClip.at} of ${firstClip.box} (${firstClip.jack}) at ${fixed(firstClip.seconds, 2)} s, by ${fixed(firstClip.overDb, 1)} dB at the worst. Bring the level down by that much ahead of it.`,
          ),
        ]
      : []),
    ...(limitUnknown.length > 0
      ? [
          item(
            `No limit is given for these, so whether they clip is not known: ${[...new Set(limitUnknown)].join(", ")}.`,
          ),
        ]
      : []),
    ...(table === "" ? [] : [table]),
    ...remarks.map((remark) => item(sentence(remark))),
    ...whenOff.map((remark) => item(`With every footswitch off, ${remark}.`)),
  ].join("\n");
}

function cablesTable(cables: readonly CableLevel[], hasDbu: boolean, columns: number): string {
  const ends = cables.map(({ from, fromJack, to, toJack }) => [`${from}, ${fromJack}`, `> ${to}, ${toJack}`]);
  const most = Math.floor((columns - (hasDbu ? 43 : 27)) / 2);
  const width = (n: number) => Math.min(most, widest(ends.map((end) => end[n])));
  const hasRoom = cables.some(({ headroomDb }) => headroomDb !== null);
  return columnsText(
    [
      { heading: ["", ""], align: "left" },
      { heading: ["cable", ""], align: "left", width: width(0) },
      { heading: ["", ""], align: "left", width: width(1) },
      { heading: ["peak", "dBFS"], align: "right" },
      { heading: ["RMS", "dBFS"], align: "right" },
      ...(hasDbu
        ? ([
            { heading: ["peak", "dBu"], align: "right" },
            { heading: ["RMS", "dBu"], align: "right" },
          ] as const)
        : []),
      ...(hasRoom ? ([{ heading: ["room", "dB"], align: "right" }] as const) : []),
    ],
    cables.map((cable, n) => [
      "",
      ...ends[n],
      fixed(cable.peakDbfs, 1),
      fixed(cable.rmsDbfs, 1),
      ...(hasDbu ? [signed(cable.peakDbu, 1), signed(cable.rmsDbu, 1)] : []),
      ...(hasRoom ? [fixed(cable.headroomDb, 1)] : []),
    ]),
  );
}

function sumText({
  box,
  branches,
  peakDbfs,
  limitDbfs,
  limitBy,
  headroomDb,
  firstOverSeconds,
}: SumLevel): string {
  const parts = branches.map(({ jack, peakDbfs: branch }) => `${fixed(branch, 1)} (${jack})`).join(", ");
  const limit = limitBy === "stated" ? `its limit of ${fixed(limitDbfs, 1)} dBFS` : "full scale";
  const verdict =
    headroomDb === null
      ? "nothing sounds"
      : firstOverSeconds === null
        ? `${fixed(headroomDb, 1)} dB below ${limit}`
        : `over ${limit} from ${fixed(firstOverSeconds, 2)} s on, by ${fixed(-headroomDb, 1)} dB at the worst`;
  return `${box}: branches of ${parts} dBFS meet at ${fixed(peakDbfs, 1)} dBFS, ${verdict}.`;
}

function leastOf<T>(things: readonly T[], figure: (thing: T) => number | null): T | null {
  return things.reduce<T | null>(
    (least, thing) =>
      figure(thing) !== null && (least === null || figure(thing)! < figure(least)!) ? thing : least,
    null,
  );
}
