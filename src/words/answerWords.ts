import { count, fixed, money, percent } from "../text/numbers.js";
import { andList, capital, quoted, sentence } from "../text/words.js";
import type { Answer, AnswerPlan, GivingUp, RuledOut } from "../work/answer/answer.js";
import type { AskFound, AskName } from "../work/answer/asks.js";
import type { Merits } from "../work/answer/merits.js";
import type { Report } from "../work/compare/report.js";
import { type About, meritWords } from "./meritWords.js";
import { remarksOf } from "./remarks.js";
import { settingLines } from "./settingsText.js";

/** What is told: a report, or what several of them come to. */
export interface Told {
  readonly answer: Answer;
  readonly rig: Pick<Report["rig"], "name">;
  /** Names of the takes that it was heard on. */
  readonly takes: readonly string[];
  readonly routings: readonly Pick<Report["routings"][number], "id" | "build">[];
  /** Of the wiring to build. */
  readonly remarks: readonly string[];
}

const aboutOf = ({ rig, takes, routings }: Told): About => ({
  rig: rig.name,
  takes,
  currency: routings.find(({ build }) => build !== null)?.build?.currency ?? "",
});

const toldOf = (report: Report): Told => {
  const { answer, rig, take, routings } = report;
  const remarks = remarksOf(report, "width").get(answer.plan?.id ?? "") ?? [];
  return { answer, rig, takes: [take.file], routings, remarks };
};

/** An answer in words, for whoever lays them out. */
export interface AnswerWords {
  /** Which wiring, in figures, and the next best. */
  readonly lead: readonly string[];
  /** The last of those, where there is a next best. */
  readonly next: string | null;
  readonly parts: readonly { readonly heading: string; readonly items: readonly string[] }[];
}

export const answerWords = (report: Report): AnswerWords => answerWordsOf(toldOf(report));

export function answerWordsOf(told: Told): AnswerWords {
  const { answer, routings, remarks } = told;
  const about = aboutOf(told);
  const { plan } = answer;
  if (!plan) return { lead: [nothing(about)], next: null, parts: [] };
  const build = routings.find(({ id }) => id === plan.id)?.build;
  const parts = [
    { heading: "What was asked", items: plan.asks.map((ask) => askWords(ask, about)) },
    {
      heading: "What giving up one ask alone would win",
      items: answer.givingUp.map((given) => givingWords(given, about)),
    },
    { heading: "Not chosen", items: answer.ruledOut.map((ruled) => ruledWords(ruled, about)) },
    { heading: "To buy", items: buyLines(answer, about) },
    { heading: "To set", items: settingLines(answer.toSet) },
    { heading: "Listen for", items: remarks.map(sentence) },
    { heading: "Mind", items: build?.cautions ?? [] },
  ];
  const next = answer.next && nextWords(plan, answer.next, about);
  return {
    lead: lead(answer, plan, next, about),
    next,
    parts: parts.filter(({ items }) => items.length > 0),
  };
}

const nothing = ({ rig }: About): string => `${rig}: no wiring that was compared can be the answer.`;

const lead = (
  answer: Answer,
  plan: AnswerPlan,
  next: string | null,
  about: About,
): readonly [string, ...string[]] => [
  `Build ${quoted(plan.label)} (${plan.id}): ${about.rig}, heard on ${andList(about.takes)}.`,
  `${plan.says} ${meritWords(plan.merits, about)}`,
  ...(answer.sidesPlayedAlike ? [playedAlike(about)] : []),
  ...(answer.keepsAll ? [] : [brokenWords(plan)]),
  ...(next === null ? [] : [next]),
];

const playedAlike = ({ takes }: About): string =>
  `Both outputs of the instrument were played alike (${andList(takes)}): the width that it has by itself is in none of these figures. A stereo take would tell.`;

const brokenWords = ({ asks }: AnswerPlan): string =>
  `No wiring keeps all that was asked. This one gives up the least: ${andList(asks.filter(({ keeps }) => keeps === false).map(askName))}.`;

const names: Readonly<Record<AskName, string>> = {
  stereo: "width",
  order: "order",
  sameUnit: "this very unit",
  oneOfEach: "one of each",
  bothSides: "no unit on one side alone",
  spendAtMost: "money",
  extraBoxesAtMost: "extra boxes",
  outletsAtMost: "outlets of the supply",
  milliampsAtMost: "current",
  boardCm2AtMost: "board area",
  monoLossDbAtMost: "mono loss",
};

const askName = ({ ask, unit }: Pick<AskFound, "ask" | "unit">): string =>
  unit === null ? names[ask] : `${names[ask]} (${unit})`;

/** "Kept: width, 62 % (at least 40 %)"; what is not known is said to be so. */
function askWords(found: AskFound, about: About): string {
  const how = found.keeps === null ? "Not known" : found.keeps ? "Kept" : "Given up";
  return `${how}: ${askName(found)}${figureWords(found, about)}.`;
}

function figureWords({ ask, keeps, figure, limit, by }: AskFound, about: About): string {
  if (limit === null) return by.length > 0 ? `, by ${andList(by.map(plainName))}` : "";
  const shown = (value: number | null) => amount(ask, value, about);
  const bound = ask === "stereo" ? "at least" : "at most";
  const open =
    keeps === null && by.length > 0 ? `, and what is not given: ${andList(by.map(plainName))}` : "";
  return `, ${shown(figure)} (${bound} ${shown(limit)})${open}`;
}

const plainName = (name: string): string => (/^[\w ,()'-]+$/.test(name) ? name : quoted(name));

function amount(ask: AskName, value: number | null, { currency }: About): string {
  if (value === null) return "not known";
  switch (ask) {
    case "stereo":
      return `${percent(value)} %`;
    case "spendAtMost":
      return money(value, currency);
    case "milliampsAtMost":
      return `${fixed(value, 0)} mA`;
    case "boardCm2AtMost":
      return `${fixed(value, 0)} cm2`;
    case "monoLossDbAtMost":
      return `${fixed(value, 1)} dB`;
    default:
      return fixed(value, 0);
  }
}

const givingWords = ({ ask, unit, wins }: GivingUp, about: About): string =>
  `${capital(askName({ ask, unit }))}: ${wins.label} (${wins.id}). ${meritWords(wins.merits, about)}`;

function nextWords(plan: AnswerPlan, next: NonNullable<Answer["next"]>, about: About): string {
  const alike = next.soundsAlike
    ? " The two are too near each other in width and mono loss for anyone to hear: the simpler one is taken."
    : "";
  const less = differences(plan.merits, next.merits, about);
  const gives = less.length > 0 ? ` Against the first it ${andList(less)}.` : "";
  return `Next best: ${next.label} (${next.id}). ${meritWords(next.merits, about)}${gives}${alike}`;
}

/** What one wiring gives up against another, and what it wins. */
function differences(first: Merits, other: Merits, { currency }: About): readonly string[] {
  const width = (other.width ?? 0) - (first.width ?? 0);
  const loss = (other.monoLossDb ?? 0) - (first.monoLossDb ?? 0);
  const boxes = other.boxes - first.boxes;
  const cost = other.cost.known - first.cost.known;
  const isPriced = first.cost.open.length + other.cost.open.length === 0;
  return [
    ...(Math.abs(width) >= 0.005
      ? [`${width < 0 ? "gives up" : "wins"} ${percent(Math.abs(width))} % of the width`]
      : []),
    ...(Math.abs(loss) >= 0.05
      ? [`loses ${fixed(Math.abs(loss), 1)} dB ${loss > 0 ? "more" : "less"} in mono`]
      : []),
    ...(boxes === 0
      ? []
      : [`takes ${count(Math.abs(boxes), "box", "boxes")} ${boxes > 0 ? "more" : "less"}`]),
    ...(isPriced && cost !== 0
      ? [`costs ${money(Math.abs(cost), currency)} ${cost > 0 ? "more" : "less"}`]
      : []),
  ];
}

function ruledWords({ label, why }: RuledOut, about: About): string {
  switch (why.kind) {
    case "breaks":
      return `${label}: gives up ${andList(why.asks.map((ask) => `${askName(ask)}${figureWords(ask, about)}`))}.`;
    case "beaten":
      return `${label}: ${why.by} is at least as good in width, mono loss, cost and boxes. ${meritWords(why.merits, about)}`;
    case "after":
      return `${label}: comes after those. ${meritWords(why.merits, about)}`;
    default:
      return `${label}: ${why.reason}`;
  }
}

function buyLines({ toBuy }: Answer, { currency }: About): readonly string[] {
  if (toBuy.length === 0) return ["Nothing."];
  return toBuy.map(
    ({ toBuy: number, what, price }) =>
      `${number} x ${what}: ${price === null ? "price not given" : `${money(price, currency)}${number > 1 ? " each" : ""}`}`,
  );
}
