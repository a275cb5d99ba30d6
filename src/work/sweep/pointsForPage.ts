import type { Figure } from "../../sound/measure/measure.js";
import { namedFigures, widthKept } from "./figures.js";
import { gridSize, stepsAt, stepsOf } from "./grid.js";
import { completed, type JudgedResults } from "./judgedResults.js";
import type { PageSweep } from "./pageSweep.js";
import type { ResultNumber } from "./results.js";
import { wishedMeasures, wishText } from "./wishes.js";

/** Points that a page holds at most: about a megabyte of figures. */
const mostPoints = 5000;
/** Room kept for the best and for the front, wherever they stand. */
const roomForBest = 500;

/** What can be chosen to be drawn, beside the measures of wishes and aims. */
const usual = [
  "sideShare",
  widthKept,
  "foldDownLossDb",
  "correlation",
  "balanceDb",
  "integratedLufs",
  "loudnessRangeLu",
  "truePeakAtMostDbtp",
  "wetToDryDb",
  "centroidHz",
];

/**
 * The points of a judged sweep that its page shows. Of more than `most` results: a coarser grid that is even in every
 * knob (every so many settings, where they were drawn by chance), and besides it the best and the front.
 */
export function pointsForPage(judged: JudgedResults, most = mostPoints): PageSweep {
  const { index, wishes, ranking, settled } = judged;
  const { plan } = index.head;
  const ranks = new Map(ranking.order.map((result, n) => [result, n + 1]));
  const { kept, even } = keptResults(judged, most);
  const figures = new Map<ResultNumber, Readonly<Record<string, number | null>>>();
  const names = [...new Set([...wishedMeasures(wishes), ...usual])].filter(
    (name) => name !== widthKept || plan.reference !== null,
  );
  index.read(kept, (result, raw) => {
    const render = settled.has(result) ? index.rendered.get(result) : undefined;
    const named = namedFigures(render ? completed(raw, render) : raw);
    const all: Readonly<Record<string, Figure>> = { ...named, [widthKept]: index.value(result, widthKept) };
    figures.set(result, Object.fromEntries(names.map((name) => [name, rounded(all[name] ?? null)])));
  });
  const keys = kept.map((result) => index.keyOf(result));
  return {
    vary: plan.groups,
    settings: index.settings,
    results: ranking.order.length,
    routings: plan.routings,
    want: wishes.want.map(wishText),
    aims: wishes.aims,
    place: keys.map(({ setting }) => index.places[setting]),
    setting: keys.map(({ setting }) => setting + 1),
    routing: keys.map(({ routing }) => routing),
    even: kept.map((result) => (even.has(result) ? 1 : 0)),
    rank: kept.map((result) => ranks.get(result) ?? 0),
    front: kept.map((result) => (judged.isOnFront(result) ? 1 : 0)),
    meets: kept.map((result) => {
      const meets = judged.meets(result);
      return meets === null ? null : meets ? 1 : 0;
    }),
    figures: Object.fromEntries(
      names.map((name) => [name, kept.map((result) => figures.get(result)?.[name] ?? null)]),
    ),
  };
}

const rounded = (value: number | null): number | null =>
  value === null ? null : Number(value.toPrecision(6));

interface Kept {
  /** In the order of their numbers. */
  readonly kept: readonly ResultNumber[];
  /** Those among them that make an even grid. */
  readonly even: ReadonlySet<ResultNumber>;
}

function keptResults({ index, ranking }: JudgedResults, most: number): Kept {
  const { order } = ranking;
  const isKept = order.length <= most ? () => true : settingsKept(index, most - roomForBest);
  const even = new Set(order.filter((result) => isKept(index.keyOf(result).setting)));
  const best = order.slice(0, roomForBest / 2);
  const front = order.filter((result) => ranking.isOnFront(result)).slice(0, roomForBest / 2);
  return { kept: [...new Set([...even, ...best, ...front])].sort((a, b) => a - b), even };
}

/** Which settings a coarser grid holds, so that they are at most so many results. */
function settingsKept(
  { head, places, settings }: JudgedResults["index"],
  most: number,
): (setting: number) => boolean {
  const { groups, routings } = head.plan;
  const room = Math.max(1, Math.floor(most / routings.length));
  if (settings < gridSize(groups)) {
    const every = Math.ceil(settings / room);
    return (setting) => setting % every === 0;
  }
  const counts = groups.map(stepsOf);
  while (counts.reduce((size, count) => size * count, 1) > room) {
    counts[counts.indexOf(Math.max(...counts))]--;
  }
  const steps = groups.map((group, g) => evenly(stepsOf(group), counts[g]));
  return (setting) => stepsAt(groups, places[setting]).every((step, g) => steps[g].has(step));
}

/** `count` of the numbers 0 to `of` - 1, as evenly as can be, with both ends. */
function evenly(of: number, count: number): ReadonlySet<number> {
  if (count === 1) return new Set([0]);
  return new Set(Array.from({ length: count }, (_, n) => Math.round((n * (of - 1)) / (count - 1))));
}
