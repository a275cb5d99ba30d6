import { inLineId } from "../rig/routings/routing.js";
import type { Comb } from "../sound/measure/facts.js";
import type { Measures } from "../sound/measure/measures.js";
import { fixed, frequency, percent, trimmed } from "../text/numbers.js";
import { doubtfulConfidence } from "../work/capture/align.js";
import type { Report, RoutingReport } from "../work/compare/report.js";

/**
 * What is worth a word, and from where on. Common practice, no source: an ear hears a shift of level between the sides
 * from about 1 dB; unrelated sides lose 3.01 dB in mono (closed form), so more than 4 dB tells of cancelling; bands
 * over 20 dB below the loudest are masked.
 */
const worthSaying = {
  widthKept: 0.8,
  widthGained: 1.25,
  balanceDb: 1,
  foldDownLossDb: 4,
  shareBelowZero: 0.1,
  bandDb: 3,
  /** Of wet to dry against what the units give in line: a wiring with less effect is wider for that alone. */
  wetToDryDb: 3,
  bandsWithinDb: 20,
} as const;

/** Correlation and side share of what is mono in all but rounding. */
const isMono = ({ correlation, sideShare }: Measures): boolean =>
  correlation !== null && correlation > 0.9999 && (sideShare ?? 0) < 1e-4;

interface Worst {
  readonly balance: RoutingReport | undefined;
  readonly foldDown: RoutingReport | undefined;
  readonly width: RoutingReport | undefined;
}

/**
 * What stands out in the figures of each routing, in words, by routing id. The worst of all is told as such.
 * @param told  what the reader has been told of already
 */
export function remarksOf(
  report: Report,
  told: "width" | null = null,
): ReadonlyMap<string, readonly string[]> {
  const measured = report.routings.filter(({ measures }) => measures !== null);
  const worst: Worst = {
    balance: most(measured, ({ balanceDb }) => Math.abs(balanceDb ?? 0)),
    foldDown: most(measured, ({ foldDownLossDb }) => foldDownLossDb ?? 0),
    // Where one is mono, no other keeps the least.
    width: measured.some(({ measures }) => measures !== null && isMono(measures))
      ? undefined
      : most(measured, ({ widthKept }) => -(widthKept ?? 1)),
  };
  // What leans with the reference leans by its stereo pedals, not by the wiring.
  const usualDb = measured.find(({ id }) => id === report.reference)?.measures?.balanceDb ?? 0;
  const inLineDb = measured.find(({ id }) => id === inLineId)?.measures?.wetToDryDb ?? null;
  return new Map(
    report.routings.map((routing) => [
      routing.id,
      routing.measures === null
        ? noMeasures(routing)
        : [
            ...remarks(routing, routing.measures, worst, usualDb, told),
            ...effectWords(routing.measures, inLineDb),
          ],
    ]),
  );
}

function remarks(
  routing: RoutingReport,
  measures: Measures,
  worst: Worst,
  usualDb: number,
  told: "width" | null,
): readonly string[] {
  const superlative = (which: keyof Worst, words: string) => (worst[which] === routing ? ` (${words})` : "");
  const { balanceDb, foldDownLossDb, worstFoldDownHz, correlationOverTime, comb } = measures;
  const said = told === "width" ? [] : widthWords(measures, superlative("width", "the least"));
  const lean = Math.abs(balanceDb ?? 0);
  if (balanceDb !== null && Math.min(lean, Math.abs(balanceDb - usualDb)) >= worthSaying.balanceDb) {
    const side = balanceDb > 0 ? "left" : "right";
    said.push(`the ${side} is ${fixed(lean, 1)} dB louder${superlative("balance", "the most lopsided")}`);
  }
  if (foldDownLossDb !== null && foldDownLossDb >= worthSaying.foldDownLossDb) {
    const where = worstFoldDownHz === null ? "" : `, most around ${frequency(worstFoldDownHz)}`;
    said.push(`loses ${fixed(foldDownLossDb, 1)} dB in mono${where}${superlative("foldDown", "the most")}`);
  }
  said.push(...phaseWords(routing));
  const below = correlationOverTime?.shareBelowZero ?? 0;
  if (below >= worthSaying.shareBelowZero) {
    const low = fixed(correlationOverTime?.percentile5 ?? 0, 2);
    said.push(
      `correlation is below 0 for ${percent(below)} % of the time, tail included (5 % of it at ${low} or under)`,
    );
  }
  if (comb !== null) said.push(combWords(comb));
  return [...recordedWords(routing), ...said, ...toneWords(measures)];
}

/** Two LFOs that nothing keeps in step: what the figures above are one case of. */
function phaseWords({ overPhases }: RoutingReport): readonly string[] {
  const { sideShare, foldDownLossDb } = overPhases ?? {};
  if (!sideShare || !foldDownLossDb) return [];
  const from = (least: string, most: string) => (least === most ? least : `${least} to ${most}`);
  const width = from(percent(sideShare.least), percent(sideShare.most));
  const loss = from(fixed(foldDownLossDb.least, 1), fixed(foldDownLossDb.most, 1));
  return [`its two LFOs run free of each other: by how they stand, side ${width} %, mono loss ${loss} dB`];
}

/** How much more or less of the effects there is than in line. */
function effectWords({ wetToDryDb }: Measures, inLineDb: number | null): readonly string[] {
  if (wetToDryDb === null || inLineDb === null) return [];
  const more = wetToDryDb - inLineDb;
  if (Math.abs(more) < worthSaying.wetToDryDb) return [];
  return [
    `${fixed(Math.abs(more), 1)} dB ${more > 0 ? "more" : "less"} effect to the dry sound than in line`,
  ];
}

/** How a recording stood to the take. */
function recordedWords({ recorded }: RoutingReport): readonly string[] {
  if (!recorded) return [];
  const { file, latencyMs, invertsPolarity, confidence, notices } = recorded;
  const late = latencyMs < 0 ? "early" : "late";
  return [
    `recorded (${file}), ${trimmed(Math.abs(latencyMs), 2)} ms ${late}, which is taken out`,
    ...(invertsPolarity ? ["its polarity is turned over to the take's"] : []),
    ...(confidence < doubtfulConfidence
      ? [`that it is this take is not sure (confidence ${fixed(confidence, 2)})`]
      : []),
    ...notices,
  ];
}

function widthWords(measures: Measures, howLittle: string): string[] {
  const { widthKept } = measures;
  if (isMono(measures)) return ["both sides are alike: no width is left"];
  if (widthKept === null) return [];
  if (widthKept < worthSaying.widthKept) return [`keeps ${percent(widthKept)} % of the width${howLittle}`];
  if (widthKept < worthSaying.widthGained) return [];
  return [`the sides differ ${trimmed(widthKept, 1)} times as much as in the reference`];
}

function combWords({ delayMs, levelDb, inverted, side, notchesHz }: Comb): string {
  const where = side === "both" ? "both sides" : `the ${side}`;
  const first = notchesHz[0] === undefined ? "" : `, first notch ${frequency(notchesHz[0])}`;
  const copy = inverted ? "an inverted copy" : "a copy";
  return `comb on ${where}: ${copy} of the dry sound ${trimmed(delayMs, 2)} ms late at ${fixed(levelDb, 1)} dB${first}`;
}

/** The octave that differs most from the reference routing, of those that carry the sound. */
function toneWords({ bands }: Measures): string[] {
  const loudestDb = Math.max(...bands.map(({ levelDb }) => levelDb ?? Number.NEGATIVE_INFINITY));
  const most = bands
    .filter(({ levelDb }) => levelDb !== null && levelDb >= loudestDb - worthSaying.bandsWithinDb)
    .reduce<{ readonly hz: number; readonly db: number }>(
      (found, { centreHz, toReferenceDb }) =>
        Math.abs(toReferenceDb ?? 0) > Math.abs(found.db) ? { hz: centreHz, db: toReferenceDb ?? 0 } : found,
      { hz: 0, db: 0 },
    );
  if (Math.abs(most.db) < worthSaying.bandDb) return [];
  const how = most.db > 0 ? "more" : "less";
  return [`${fixed(Math.abs(most.db), 1)} dB ${how} than the reference around ${frequency(most.hz)}`];
}

function noMeasures({ possible, reason }: RoutingReport): readonly string[] {
  return possible ? [] : [`not possible: ${reason ?? "no reason is known"}`];
}

/** The routing of the largest value; none when it is not the largest by itself. */
function most(
  routings: readonly RoutingReport[],
  figure: (measures: Measures) => number,
): RoutingReport | undefined {
  let best: RoutingReport | undefined;
  let bestValue = Number.NEGATIVE_INFINITY;
  for (const routing of routings) {
    const value = routing.measures === null ? bestValue : figure(routing.measures);
    if (value > bestValue) {
      best = routing;
      bestValue = value;
    } else if (value === bestValue) best = undefined;
  }
  return routings.length > 1 ? best : undefined;
}
