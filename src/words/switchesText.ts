import { columnsText, widest, wrapped } from "../text/columns.js";
import { duration, noFigure, signed } from "../text/numbers.js";
import type { SwitchSummary } from "../work/switches/summary.js";
import type { SwitchSection } from "../work/switches/switchSection.js";
import {
  looksWords,
  noSwitchWords,
  noticedKinds,
  noticedWords,
  switchesLead,
  thresholdWords,
  trimWords,
} from "./switchesWords.js";
import { type Paint, plainPaint } from "./table.js";

/** What the text begins with. */
export interface SwitchesHead {
  readonly rig: string;
  readonly takeFile: string;
  readonly takeSeconds: number;
  /** Whether loading is in the sound. */
  readonly loadingNote: string;
}

/**
 * What every footswitch does in every routing, as a person reads it: a row a switch, then in words what a listener
 * notices and what cures it.
 */
export function switchesText(
  head: SwitchesHead,
  section: SwitchSection,
  columns: number,
  paint: Paint = plainPaint,
): string {
  return [
    paint.bold(wrapped(`${head.rig}, ${head.takeFile} (${duration(head.takeSeconds)})`, columns)),
    wrapped(switchesLead, columns),
    ...section.routings.map((routing) => routingText(routing, columns, paint)),
    legend(section, columns, paint),
    wrapped(head.loadingNote, columns),
  ].join("\n\n");
}

type RoutingSection = SwitchSection["routings"][number];

function routingText(routing: RoutingSection, columns: number, paint: Paint): string {
  const { id, label, switches } = routing;
  const heading = paint.bold(`${id}: ${label}`);
  if (switches.length === 0) return `${heading}\n  ${noSwitchWords}`;
  const trims = trimWords(switches);
  return [
    `${heading} (${looksWords(routing)})`,
    summaryTable(switches, columns),
    ...(trims === null ? [] : [wrapped(trims, columns, 4, "  ")]),
    ...switches.flatMap((summary) => noticedText(summary, columns)),
  ].join("\n");
}

function summaryTable(summaries: readonly SwitchSummary[], columns: number): string {
  const figuresWidth = 44;
  const labelWidth = Math.min(columns - figuresWidth - 18, widest(summaries.map(({ pedal }) => pedal)));
  const noticedWidth = Math.min(
    columns - figuresWidth - labelWidth,
    widest(["noticed", ...summaries.map(noticedKinds)]),
  );
  return columnsText(
    [
      { heading: ["", ""], align: "left" },
      { heading: ["off", ""], align: "left", width: labelWidth },
      { heading: ["level", "LU"], align: "right" },
      { heading: ["range", "LU"], align: "right" },
      { heading: ["side", "%"], align: "right" },
      { heading: ["corr.", ""], align: "right" },
      { heading: ["noticed", ""], align: "left", width: noticedWidth },
    ],
    summaries.map((summary) => {
      const { pedal, othersOn, levelJumpLu } = summary;
      return [
        "",
        pedal,
        signed(othersOn?.levelJumpLu ?? null, 1),
        levelJumpLu ? `${signed(levelJumpLu.least, 1)} to ${signed(levelJumpLu.most, 1)}` : noFigure,
        signed(othersOn && othersOn.sideShareChange !== null ? 100 * othersOn.sideShareChange : null, 0),
        signed(othersOn?.correlationChange ?? null, 2),
        noticedKinds(summary),
      ];
    }),
  );
}

function noticedText(summary: SwitchSummary, columns: number): readonly string[] {
  const words = noticedWords(summary);
  if (words === null) return [];
  return [
    wrapped(words.says, columns, 4, "  "),
    ...words.cures.map((cure) => wrapped(cure, columns, 6, "    ")),
  ];
}

function legend(section: SwitchSection, columns: number, paint: Paint): string {
  const { heading, lines, notes } = thresholdWords(section);
  return [
    paint.bold(heading),
    ...lines.map((line) => wrapped(line, columns, 4, "  ")),
    ...notes.map((note) => wrapped(note, columns)),
  ].join("\n");
}
