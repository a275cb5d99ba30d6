import { count, duration, fixed } from "../text/numbers.js";
import { andList } from "../text/words.js";
import { balanceToleranceDb, type CheckedBalance } from "../work/crosscheck/balance.js";
import type { CheckedPedal, CrosscheckedRouting } from "../work/crosscheck/crosscheck.js";
import type { JudgedBy } from "../work/crosscheck/judgedEffects.js";

/** What was compared with what, in words. @param against who rendered the standard nodes */
export const comparedWords = (against: string): string =>
  `Each routing twice, tail included: by splitsum's engine, and as a graph of standard nodes (W3C Web Audio API) by ${against}. Swinging delays are read by straight lines in both, as the standard has it; elsewhere splitsum reads them by cubics. Difference of the two, a full-scale sine at 0, and as far as two right engines may come apart with what is in the routing:`;

/** What stands behind a row: what sets its limit. */
export const limitWords = ({ targetBy, withinTarget }: CrosscheckedRouting): string =>
  `${targetBy}${withinTarget ? "" : ", MISSED"}`;

const ways: readonly (readonly [JudgedBy, string])[] = [
  ["nodes", "By standard nodes, which share its settings with splitsum and none of its sound"],
  [
    "response",
    "By its own response: splitsum's answer to one click, which says all that it does, in the second engine's convolver",
  ],
  [
    "hand-over",
    "By hand-over, since no response says all that it does: splitsum's own sound of it is played in its place, and what it hears and all behind it is judged",
  ],
];

/** How every effect was judged, in plain words: a lead, and a sentence for each way. */
export function judgedWords(routings: readonly CrosscheckedRouting[]): readonly string[] {
  const compared = routings.filter(({ skipped }) => skipped === null);
  if (compared.length === 0) return [];
  const lines = ways.flatMap(([by, words]) => {
    const reasons = new Set(
      compared.flatMap(({ pedals }) => pedals.filter((pedal) => pedal.by === by)).map(reasonOf),
    );
    const groups = [...reasons].map((reason) => {
      const names = namesOf(compared, (pedal) => pedal.by === by && reasonOf(pedal) === reason);
      return `${andList(names)}${reason === "" ? "" : ` (${reason})`}`;
    });
    return groups.length === 0 ? [] : [`${words}: ${groups.join("; ")}.`];
  });
  const lead =
    "How the effect of each pedal was judged; all else (cables, splitters, sums, mixers, dry paths, levels, polarity, latency) is of standard nodes in any case.";
  return lines.length === 0 ? [] : [lead, ...lines, ...shortenedWords(compared)];
}

const reasonOf = ({ model, why }: CheckedPedal): string => (why === null ? "" : `${model}: ${why}`);

/** Names of pedals, each with the routings that it is so in where those are not all. */
function namesOf(
  compared: readonly CrosscheckedRouting[],
  isOne: (pedal: CheckedPedal) => boolean,
): readonly string[] {
  const names = new Set(compared.flatMap(({ pedals }) => pedals.filter(isOne).map(({ name }) => name)));
  return [...names].map((name) => {
    const isThere = ({ pedals }: CrosscheckedRouting) =>
      pedals.some((pedal) => pedal.name === name && isOne(pedal));
    const others = compared.filter((routing) => !isThere(routing)).map(({ id }) => id);
    if (others.length === 0) return name;
    const ids = compared.filter(isThere).map(({ id }) => id);
    return others.length < ids.length
      ? `${name} in all but ${andList(others)}`
      : `${name} in ${andList(ids)}`;
  });
}

/** Of routings that were not compared as long as others are. */
function shortenedWords(compared: readonly CrosscheckedRouting[]): readonly string[] {
  const longest = Math.max(...compared.map(({ comparedSeconds }) => comparedSeconds));
  const short = compared.filter(({ comparedSeconds }) => comparedSeconds < longest);
  const all = compared.length === 1 || short.length === 0;
  return all
    ? []
    : [
        `Long responses take the second engine long: ${andList(short.map(({ id, comparedSeconds }) => `${id} was compared for ${duration(comparedSeconds)}`))}, the others for ${duration(longest)}.`,
      ];
}

/** Wet to dry of returns that are left open, by the second engine: a lead and a sentence each; none where there is none. */
export function balanceWords(routings: readonly CrosscheckedRouting[], against: string): readonly string[] {
  const lines = routings.flatMap(({ id, balance }) => balance.map((each) => `${id}: ${balanceOf(each)}`));
  const lead = `Wet to dry by ${against}, with the unit's effect and without it, where splitsum chose the return's level: it is to be what the unit gives in line, to ${fixed(balanceToleranceDb, 2)} dB.`;
  return lines.length === 0 ? [] : [lead, ...lines];
}

function balanceOf({ unit, hereDb, inLineDb, withinTolerance, notJudged }: CheckedBalance): string {
  const here = `${unit} ${decibels(hereDb)}`;
  if (notJudged === "no-dry")
    return `${here}; in line it leaves no dry sound to go by, so this is not judged.`;
  const both = `${here}, in line ${decibels(inLineDb)}`;
  if (notJudged === "bound") return `${both}; the mixer goes no further, so this is not judged.`;
  return `${both}: ${withinTolerance ? "as it is to be" : "MISSED"}.`;
}

const decibels = (value: number | null): string => (value === null ? "silent" : `${fixed(value, 2)} dB`);

/** Reasons for which routings were not compared, each with the routings that share it. */
export function skippedByReason(
  routings: readonly CrosscheckedRouting[],
): readonly { readonly reason: string; readonly routings: readonly CrosscheckedRouting[] }[] {
  const byReason = new Map<string, CrosscheckedRouting[]>();
  for (const routing of routings) {
    const { skipped } = routing;
    if (skipped !== null) byReason.set(skipped, [...(byReason.get(skipped) ?? []), routing]);
  }
  return [...byReason].map(([reason, sharing]) => ({ reason, routings: sharing }));
}

export function verdictWords(routings: readonly CrosscheckedRouting[]): string {
  const compared = routings.filter(({ skipped }) => skipped === null);
  if (compared.length === 0) return "Nothing could be compared.";
  const missed = compared.filter(({ withinTarget }) => !withinTarget).length;
  const of = `${count(compared.length, "routing")} compared`;
  const sound =
    missed === 0
      ? `${of}, all within what they may differ.`
      : `${of}, ${missed} further apart than they may be.`;
  return [sound, ...balanceVerdict(compared)].join(" ");
}

function balanceVerdict(compared: readonly CrosscheckedRouting[]): readonly string[] {
  const judged = compared.flatMap(({ balance }) => balance).filter(({ notJudged }) => notJudged === null);
  if (judged.length === 0) return [];
  const missed = judged.filter(({ withinTolerance }) => !withinTolerance).length;
  const of = `${count(judged.length, "return")} judged`;
  return [missed === 0 ? `${of}, all as in line.` : `${of}, ${missed} not as in line.`];
}
