import { count, fixed, percent, signed, trimmed } from "../text/numbers.js";
import { andList, capital } from "../text/words.js";
import type { SwitchSummary } from "../work/switches/summary.js";
import type { SwitchSection } from "../work/switches/switchSection.js";
import type { FlagKind } from "../work/switches/thresholds.js";

/** What is told of footswitches in words, alike in the terminal and on the page. */
export const switchesLead =
  "What turning one switch off does; turning it on does the opposite. Level is integrated loudness over the take, first with all other switches on, then its range over their states; the words tell the worst of them.";

export const noSwitchWords = "No footswitch in this wiring.";

/** `8 states, 12 presses`. */
export function looksWords({ states, allStates, presses }: SwitchSection["routings"][number]): string {
  const some = states < allStates ? ` of ${allStates}` : "";
  return `${count(states, "state")}${some}, ${count(presses, "press", "presses")}`;
}

/** `level, comb`; `nothing` where no listener would notice the press. */
export const noticedKinds = ({ noticed }: SwitchSummary): string =>
  noticed.map(({ kind }) => kindWords[kind]).join(", ") || "nothing";

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

/** What a press does and each cure once, as sentences; null for a pedal that a turn of its level alone cures. */
export function noticedWords({
  pedal,
  presses,
  noticed,
}: SwitchSummary): { readonly says: string; readonly cures: readonly string[] } | null {
  const cures = noticed.flatMap(({ kind, cure }) =>
    cure !== null && cure.kind !== "trim" ? [{ ...cure, of: kindWords[kind] }] : [],
  );
  if (cures.length === 0) return null;
  const found = noticed.map(({ says, presses: some }) =>
    some < presses ? `${says} (in ${some} of ${presses})` : says,
  );
  const once = cures.filter(({ says }, n) => cures.findIndex((each) => each.says === says) === n);
  return {
    says: `${pedal} off: ${found.join("; ")}.`,
    cures: once.map(({ says, levelJumpLu }) => {
      const left = levelJumpLu === null ? "" : `; ${signed(levelJumpLu, 1)} LU is then left`;
      const of = cures.filter((each) => each.says === says).map((each) => each.of);
      return `Cure of the ${andList(of)}: ${says}${left}.`;
    }),
  };
}

/** One sentence for all pedals that a turn of their level cures; null where there is none. */
export function trimWords(summaries: readonly SwitchSummary[]): string | null {
  const turns = summaries.flatMap(({ pedal, trimDb }) =>
    trimDb === null ? [] : [`${pedal} ${trimDb > 0 ? "up" : "down"} by ${fixed(Math.abs(trimDb), 1)} dB`],
  );
  return turns.length === 0 ? null : `For one level on and off, turn the output of ${andList(turns)}.`;
}

/** From where on a change is noticed, and who says so: a heading, a sentence a kind, and what else is to be known. */
export function thresholdWords({ routings, thresholds }: SwitchSection): {
  readonly heading: string;
  readonly lines: readonly string[];
  readonly notes: readonly string[];
} {
  const lines = thresholds.map(({ kind, value, unit, source }) => {
    const figure = kind === "width" ? `${percent(value)} %` : trimmed(value, kind === "correlation" ? 3 : 2);
    const from = value === 0 ? "" : ` from ${figure}${unit === "" ? "" : ` ${unit}`}`;
    return `${capital(kindWords[kind])}${from}: ${source}.`;
  });
  const isPart = routings.some(({ states, allStates }) => states < allStates);
  return {
    heading: lines.length > 0 ? "From where on a change is noticed" : "Nothing that a listener would notice.",
    lines,
    notes: [...(isPart ? [partly] : []), "Two units of one pedal, one a side, are two footswitches."],
  };
}

const partly =
  "Where not all states are looked at: those that were named, or everything on and everything off, and one press from there.";
