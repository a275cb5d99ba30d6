import { andList } from "../rig/words.js";
import { capital } from "../routings/units.js";
import type { SwitchSection } from "../switches/section.js";
import type { Noticed, SwitchSummary } from "../switches/summary.js";
import type { FlagKind } from "../switches/thresholds.js";
import { columnsText, widest, wrapped } from "./columns.js";
import { count, duration, fixed, noFigure, percent, signed, trimmed } from "./numbers.js";
import { type Paint, plainPaint } from "./table.js";

/** What the text begins with. */
export interface SwitchesHead {
  readonly rig: string;
  readonly takeFile: string;
  readonly takeSeconds: number;
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
    wrapped(
      "What turning one switch off does; turning it on does the opposite. Level is integrated loudness over the take, first with all other switches on, then its range over their states; the words tell the worst of them.",
      columns,
    ),
    ...section.routings.map((routing) => routingText(routing, columns, paint)),
    legend(section, columns, paint),
  ].join("\n\n");
}

type RoutingSection = SwitchSection["routings"][number];

function routingText(routing: RoutingSection, columns: number, paint: Paint): string {
  const { id, label, states, allStates, presses, switches } = routing;
  const heading = paint.bold(`${id}: ${label}`);
  if (switches.length === 0) return `${heading}\n  No footswitch in this wiring.`;
  const some = states < allStates ? ` of ${allStates}` : "";
  return [
    `${heading} (${count(states, "state")}${some}, ${count(presses, "press", "presses")})`,
    summaryTable(switches, columns),
    ...trimText(switches, columns),
    ...switches.flatMap((summary) => noticedText(summary, columns)),
  ].join("\n");
}

function summaryTable(summaries: readonly SwitchSummary[], columns: number): string {
  const noticedText = ({ noticed }: SwitchSummary) =>
    noticed.map(({ kind }) => kindWords[kind]).join(", ") || "nothing";
  const figuresWidth = 44;
  const labelWidth = Math.min(columns - figuresWidth - 18, widest(summaries.map(({ pedal }) => pedal)));
  const noticedWidth = Math.min(
    columns - figuresWidth - labelWidth,
    widest(["noticed", ...summaries.map(noticedText)]),
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
        noticedText(summary),
      ];
    }),
  );
}

const kindWords: Readonly<Record<FlagKind, string>> = {
  "level-jump": "level",
  silence: "silence",
  width: "width",
  correlation: "correlation",
  comb: "comb",
  polarity: "polarity",
  balance: "balance",
  "side-delay": "shift",
};

/** What is noticed and each cure once, for a pedal that a turn of its level alone does not cure. */
function noticedText({ pedal, presses, noticed }: SwitchSummary, columns: number): readonly string[] {
  const cures = noticed.filter(({ cure }) => cure !== null && cure.kind !== "trim");
  if (cures.length === 0) return [];
  const found = noticed.map(({ says, presses: some }) =>
    some < presses ? `${says} (in ${some} of ${presses})` : says,
  );
  const once = cures.filter(({ cure }, n) => cures.findIndex((each) => each.cure?.says === cure?.says) === n);
  return [
    wrapped(`${pedal} off: ${found.join("; ")}.`, columns, 4, "  "),
    ...once.map((each) => wrapped(`Cure: ${cureWords(each)}.`, columns, 6, "    ")),
  ];
}

function cureWords({ cure }: Noticed): string {
  if (cure === null) return "";
  const left = cure.levelJumpLu === null ? "" : `; ${signed(cure.levelJumpLu, 1)} LU is then left`;
  return `${cure.says}${left}`;
}

/** One line for all pedals that a turn of their level cures. */
function trimText(summaries: readonly SwitchSummary[], columns: number): readonly string[] {
  const turns = summaries.flatMap(({ pedal, trimDb }) =>
    trimDb === null ? [] : [`${pedal} ${trimDb > 0 ? "up" : "down"} by ${fixed(Math.abs(trimDb), 1)} dB`],
  );
  if (turns.length === 0) return [];
  return [wrapped(`For one level on and off, turn the output of ${andList(turns)}.`, columns, 4, "  ")];
}

function legend({ routings, thresholds }: SwitchSection, columns: number, paint: Paint): string {
  const lines = thresholds.map(({ kind, value, unit, source }) => {
    const figure = kind === "width" ? `${percent(value)} %` : trimmed(value, kind === "correlation" ? 3 : 2);
    const from = value === 0 ? "" : ` from ${figure}${unit === "" ? "" : ` ${unit}`}`;
    return wrapped(`${capital(kindWords[kind])}${from}: ${source}.`, columns, 4, "  ");
  });
  const isPart = routings.some(({ states, allStates }) => states < allStates);
  return [
    paint.bold(
      lines.length > 0 ? "From where on a change is noticed" : "Nothing that a listener would notice.",
    ),
    ...lines,
    ...(isPart ? [wrapped(partly, columns)] : []),
    "Two units of one pedal, one a side, are two footswitches.",
  ].join("\n");
}

const partly =
  "Where not all states are looked at: those chosen by --states, or everything on and everything off, and one press from there.";
