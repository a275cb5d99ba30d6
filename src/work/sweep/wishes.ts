import { foldDownMeasure } from "../../sound/measure/foldDown.js";
import type { Figure } from "../../sound/measure/measure.js";
import { sideShareMeasure } from "../../sound/measure/sideShare.js";
import { didYouMean } from "../../text/nearest.js";
import { UserError } from "../../text/userError.js";
import { quoted } from "../../text/words.js";
import { boundOf, needsRender, wholeNames, wishNames } from "./figures.js";

/** What a builder wants of a measure: "sideShare>=0.2". */
export interface Wish {
  readonly measure: string;
  readonly is: Comparison;
  readonly limit: number;
}
export type Comparison = ">=" | "<=" | ">" | "<";

/** A measure that is chosen to be as high, or as low, as can be. */
export interface Aim {
  readonly measure: string;
  readonly better: "more" | "less";
}

/** What results are judged and ranked by; the first aim counts most. */
export interface Wishes {
  readonly want: readonly Wish[];
  readonly aims: readonly Aim[];
}

export interface WishWords {
  readonly want: readonly string[];
  readonly most: readonly string[];
  readonly least: readonly string[];
}

/** Without any wish: width, and what it costs in mono. */
const usualAims: readonly Aim[] = [sideShareMeasure, foldDownMeasure].flatMap(({ id, better }) =>
  better === null ? [] : [{ measure: id, better }],
);

/**
 * Wishes from words. Aims are what `most` and `least` name, in that order; behind them the measures of the wishes, each
 * better in the direction that is wished for, unless it is wished to be between two limits.
 * @throws UserError for each word that is wrong
 */
export function readWishes({ want, most, least }: WishWords): Wishes {
  const wishes = want.map(readWish);
  const named = [
    ...most.map((measure): Aim => ({ measure, better: "more" })),
    ...least.map((measure): Aim => ({ measure, better: "less" })),
  ];
  const problems = [
    ...wishes.flatMap((wish) => (typeof wish === "string" ? [wish] : [])),
    ...named.flatMap(({ measure }) => unknownMeasure(measure) ?? cannotRank(measure) ?? []),
  ];
  if (want.length > mostWishes)
    problems.push(`${want.length} wishes are too many; there may be ${mostWishes}.`);
  if (problems.length > 0) throw new UserError(problems.map((message) => ({ message })));
  const good = wishes.filter((wish) => typeof wish !== "string");
  const aims = distinctAims([...named, ...aimsOf(good)]);
  return { want: good, aims: aims.length > 0 ? aims : usualAims };
}

const mostWishes = 30;

/** Names of all measures that judging and ranking read. */
export const wishedMeasures = ({ want, aims }: Wishes): string[] => [
  ...new Set([...want, ...aims].map(({ measure }) => measure)),
];

/** True, false, or null where the measure is not known. */
export function isMet({ is, limit }: Wish, value: Figure): boolean | null {
  if (value === null) return null;
  if (is === ">=") return value >= limit;
  if (is === "<=") return value <= limit;
  return is === ">" ? value > limit : value < limit;
}

export const wishText = ({ measure, is, limit }: Wish): string => `${measure}${is}${limit}`;

const wishPattern = /^([A-Za-z0-9.]+)\s*([<>=]+)(?![<>=])\s*(\S.*)$/;
const numberPattern = /^[-+]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[-+]?\d+)?$/i;
const comparisons = [">=", "<=", ">", "<"] as const;

/** A wish from words, or which part of them is wrong. */
function readWish(text: string): Wish | string {
  const match = wishPattern.exec(text.trim());
  if (!match)
    return `${quoted(text)} is no wish; write a measure, one of >= <= > <, and a number, as in "sideShare>=0.2".`;
  const [, measure, sign, limit] = match;
  const is = comparisons.find((known) => known === sign);
  const unknown = unknownMeasure(measure);
  if (unknown !== null) return unknown;
  if (!is) return `${quoted(text)}: ${quoted(sign)} is no comparison; write one of >= <= > <.`;
  if (numberPattern.test(limit)) return { measure, is, limit: Number(limit) };
  return `${quoted(text)}: ${quoted(limit)} is no number.${limitHint(measure + is, limit)}`;
}

/** What a number was meant to be: with a comma, in per cent, or with its unit behind it. */
function limitHint(before: string, limit: string): string {
  const match = /^([-+]?\d*[.,]?\d+)\s*(%?)(.*)$/.exec(limit);
  if (!match) return ' Write one as in "sideShare>=0.2".';
  const [, digits, percent, rest] = match;
  const number = Number(digits.replace(",", "."));
  const value = percent ? Number((number / 100).toPrecision(12)) : number;
  const unit = rest.trim() === "" ? "" : ", without the unit";
  return ` Write "${before}${value}"${unit}.`;
}

function unknownMeasure(word: string): string | null {
  if (wishNames.includes(word)) return null;
  const whole = wholeNames.join(", ");
  return `${quoted(word)} is no measure; there are ${whole}, and those of bands, as octave125HzLevelDb, octave125HzSideShare and third160HzLevelDb.${didYouMean(word, wishNames)}`;
}

function cannotRank(word: string): string | null {
  if (!needsRender(word)) return null;
  const bound = boundOf(word);
  const instead = bound === null ? "" : ` Rank by ${bound}, or wish for a limit with --want.`;
  return `${quoted(word)} takes a render of each setting, and only the best are rendered: nothing can be ranked by it.${instead}`;
}

/** Directions of the wishes; a measure wished for both ways has none, nor has one that only renders tell. */
function aimsOf(wishes: readonly Wish[]): Aim[] {
  const better = (wish: Wish) => (wish.is.startsWith(">") ? "more" : "less");
  return wishes
    .filter(({ measure }) => !needsRender(measure))
    .filter((wish) =>
      wishes.every((other) => other.measure !== wish.measure || better(other) === better(wish)),
    )
    .map((wish) => ({ measure: wish.measure, better: better(wish) }));
}

const distinctAims = (aims: readonly Aim[]): Aim[] =>
  aims.filter(({ measure }, n) => aims.findIndex((other) => other.measure === measure) === n);
