import { count, fixed, money, percent } from "../text/numbers.js";
import { andList } from "../text/words.js";
import type { Merits, Sum } from "../work/answer/merits.js";

/** What merits are told of. */
export interface About {
  readonly rig: string;
  /** Of more than one, merits are the worst. */
  readonly takes: readonly string[];
  readonly currency: string;
}

/** "It keeps 62 % of the width, loses 0.5 dB in mono, needs 2 more boxes and costs EUR 175." */
export const meritWords = (merits: Merits, about: About): string =>
  `It ${andList([...soundMerits(merits, about), ...buildMerits(merits, about)])}.`;

/** What becomes of width and mono, each as what "it" does. */
export function soundMerits({ width, monoLossDb }: Merits, { takes }: About): readonly string[] {
  const [least, most] = takes.length > 1 ? ["at least ", "up to "] : ["", ""];
  return [
    ...(width === null
      ? []
      : [width < 0.0005 ? "keeps none of the width" : `keeps ${least}${percent(width)} % of the width`]),
    ...(monoLossDb === null
      ? []
      : [monoLossDb < 0.05 ? "loses nothing in mono" : `loses ${most}${fixed(monoLossDb, 1)} dB in mono`]),
  ];
}

/** What it takes to build, likewise. */
export const buildMerits = ({ boxes, cost }: Merits, about: About): readonly string[] => [
  boxes === 0 ? "needs no more boxes" : `needs ${count(boxes, "more box", "more boxes")}`,
  costWords(cost, about),
];

function costWords({ known, open }: Sum, { currency }: About): string {
  const unknown = open.length > 0 ? ` (price not given: ${andList([...new Set(open)])})` : "";
  if (known === 0 && open.length > 0) return `costs what the rig does not say${unknown}`;
  return known === 0
    ? "costs nothing"
    : `costs ${money(known, currency)}${open.length > 0 ? " and more" : ""}${unknown}`;
}
