import type { SettingValue } from "../sound/dsp/kernel.js";
import { type Column, columnsText, wrapped } from "../text/columns.js";
import { count, duration, trimmed } from "../text/numbers.js";
import { andList } from "../text/words.js";
import { wordingOf } from "../work/sweep/figures.js";
import type { BestResult, SweepReport } from "../work/sweep/sweepReport.js";
import { type Aim, wishText } from "../work/sweep/wishes.js";
import { figureText, isPercent } from "./figureText.js";
import { type Paint, plainPaint } from "./table.js";

/** Rows of the table; the files hold all. */
const mostRows = 10;

interface Shown {
  readonly heading: readonly [string, string];
  readonly of: (best: BestResult) => string;
  readonly name: string;
}

/**
 * The best of a sweep as a person reads it: a row a setting, those on the trade-off front marked by a star; then how
 * many there are, and why the others fell out.
 * @param columns  width of the terminal; from 80 on it fits, and nothing is cut
 */
export function sweepText(report: SweepReport, columns: number, paint: Paint = plainPaint): string {
  const { rig, take, counts, aims } = report;
  const length = `${duration(take.frames / take.rateHz)} and ${duration(report.tailSeconds)} of tail`;
  const ways = count(report.routings.length, "routing");
  const title = `${rig.name}, ${take.file} (${length}): ${count(counts.settings, "setting")} by ${ways}`;
  const { table, left } = fitting(report, columns);
  return [
    paint.bold(wrapped(title, columns)),
    "",
    table,
    "",
    ...[
      `* on the trade-off front: no other is better in every chosen measure (${aims.map(aimText).join(", ")})`,
      ...(left.length > 0 ? [`Left out for want of room: ${left.join(", ")}; see sweep.csv.`] : []),
      ...verdictLines(report),
      ...rangeLines(report),
      ...spreadLines(report),
      report.loadingNote,
    ].map((line) => wrapped(line, columns, 2)),
  ].join("\n");
}

/** The table with as many columns as there is room for, and the names of the rest. */
function fitting(report: SweepReport, columns: number): { table: string; left: readonly string[] } {
  const { first, more } = columnsOf(report);
  const rows = report.best.slice(0, mostRows);
  const drawn = (shown: readonly Shown[]) =>
    columnsText(
      [
        { heading: ["", "rank"], align: "right" },
        { heading: ["", ""], align: "left" },
        { heading: ["", "routing"], align: "left" },
        ...shown.map(({ heading }): Column => ({ heading, align: "right" })),
      ],
      rows.map((best) => [
        String(best.rank),
        best.front ? "*" : "",
        best.routing,
        ...shown.map((column) => column.of(best)),
      ]),
    );
  const all = [...first, ...more];
  for (let shown = all.length; ; shown--) {
    const table = drawn(all.slice(0, shown));
    const width = Math.max(...table.split("\n").map((line) => Array.from(line).length));
    if (width <= columns || shown <= 1) return { table, left: all.slice(shown).map(({ name }) => name) };
  }
}

/** What is varied and chosen; then what a person wants to know besides. */
function columnsOf(report: SweepReport): { first: readonly Shown[]; more: readonly Shown[] } {
  const knobs = report.vary.flat().map(({ path }): Shown => {
    const [owner, key] = [path.slice(0, path.lastIndexOf(".")), path.slice(path.lastIndexOf(".") + 1)];
    return { heading: [owner, key], name: path, of: ({ settings }) => valueText(settings[path]) };
  });
  const chosen = [...new Set([...report.aims, ...report.want].map(({ measure }) => measure))];
  const usual = [
    "sideShare",
    "foldDownLossDb",
    "correlation",
    "integratedLufs",
    "truePeakDbtp",
    "wetToDryDb",
  ];
  const others = usual.filter((measure) => !chosen.includes(measure));
  return { first: [...knobs, ...chosen.map(measureColumn)], more: others.map(measureColumn) };
}

function measureColumn(measure: string): Shown {
  const { unit, heading = [measure, unit] } = wordingOf(measure);
  return { heading, name: measure, of: ({ measures }) => figureText(measure, measures[measure] ?? null) };
}

const valueText = (value: SettingValue): string =>
  typeof value === "number" ? trimmed(value, 3) : String(value);

const aimText = ({ measure, better }: Aim): string => `${measure} ${better}`;

function verdictLines({ counts, want, fellOut, best }: SweepReport): readonly string[] {
  if (want.length === 0) return [];
  const wishes = want.map(wishText).join(", ");
  const met =
    counts.meeting === 0
      ? `None of ${counts.results} results meets every wish (${wishes}); these come nearest.`
      : `${counts.meeting} of ${counts.results} results meet every wish (${wishes}).`;
  const missed = fellOut
    .filter(({ results }) => results > 0)
    .map(({ wish, results }) => `${results} miss ${wish}`);
  const idle = fellOut.filter(({ results }) => results === 0).map(({ wish }) => wish);
  const never = fellOut.filter(({ results }) => results === counts.results).map(({ wish }) => wish);
  const nearest = best.find(({ meets }) => meets === false);
  return [
    met,
    ...(missed.length > 0 ? [`Fell out: ${missed.join("; ")}.`] : []),
    ...(idle.length > 0 && counts.open === 0
      ? [`${andList(idle)} decided nothing: every result meets ${idle.length === 1 ? "it" : "them"}.`]
      : []),
    ...(never.length > 0 ? [`No result meets ${andList(never, "or")}, wherever the knobs stand.`] : []),
    ...(counts.open > 0
      ? [`Not known without a render: ${count(counts.open, "result")}; only the best are rendered.`]
      : []),
    ...(counts.meeting === 0 && nearest?.fellOut ? [`The first: ${nearest.fellOut}.`] : []),
  ];
}

/** A best at the end of what was looked at may be better beyond. */
function rangeLines({ best: [first], best, vary }: SweepReport): readonly string[] {
  if (!first) return [];
  const ends = vary.flat().flatMap(({ path, values }) => {
    const numbers = values.filter((value) => typeof value === "number");
    const own = first.settings[path];
    if (numbers.length < 2 || typeof own !== "number" || changesNothing(best, path)) return [];
    const [least, most] = [Math.min(...numbers), Math.max(...numbers)];
    if (own !== least && own !== most) return [];
    return [`${path} at ${trimmed(own, 3)} (looked at: ${trimmed(least, 3)} to ${trimmed(most, 3)})`];
  });
  return ends.length === 0
    ? []
    : [
        `The best stands at the end of a range: ${ends.join("; ")}. What lies beyond was not looked at; widen the range where the knob goes further.`,
      ];
}

/** True where a result that differs from the best in this knob alone is the same in every figure. */
function changesNothing([first, ...others]: SweepReport["best"], path: string): boolean {
  return others.some(
    ({ routing, settings, measures }) =>
      routing === first.routing &&
      Object.entries(settings).every(([key, value]) => (key === path) === (value !== first.settings[key])) &&
      Object.entries(measures).every(([key, value]) => value === first.measures[key]),
  );
}

/** How far two units that are set alike may be apart, for the best setting that has two. */
function spreadLines({ pair, tolerance, aims }: SweepReport): readonly string[] {
  if (!tolerance || !pair?.spread) return [];
  const { spread, routing, rank } = pair;
  const ranges = aims.map(({ measure }) => {
    const [least, most] = [spread.least[measure] ?? null, spread.most[measure] ?? null];
    return `${measure} ${figureText(measure, least)} to ${figureText(measure, most)}${isPercent(measure) ? " %" : ""}`;
  });
  const chance = `${spread.meeting} of ${spread.draws} meet every wish`;
  return [
    `Two units within ${tolerance.percent} % (${routing}, rank ${rank}): ${ranges.join(", ")}; ${chance}. All in spread.csv.`,
  ];
}
