import { nameOf, type View } from "../view.js";
import type { TrialResult } from "./trial.js";
import { share } from "./trialWords.js";

/** What came of a trial, as its listener tells it to somebody else: a sentence for each pair. */
export function trialInWords(view: View, result: TrialResult): readonly string[] {
  const { take, loop, folded, tellApart, prefer, answers } = result;
  const part = loop ? `, ${loop.from.toFixed(1)} to ${loop.to.toFixed(1)} s` : "";
  const how = `on ${take}${part}, matched in loudness${folded ? ", folded to mono" : ""}`;
  if (tellApart) {
    const names = [...new Set(answers.flatMap(({ A, B }) => [A, B]))].map((id) => nameOf(view, id));
    const { correct, trials, probability } = tellApart;
    return [
      `told apart ${correct} of ${trials} times (${names.join("; ")}), ${how}. Guessing alone gets as many or more in ${share(probability)} of such trials.`,
    ];
  }
  return (prefer ?? []).map((pair) => `${pairWords(view, pair)}, ${how}. ${verdict(pair)}`);
}

type Pair = NonNullable<TrialResult["prefer"]>[number];

function pairWords(view: View, { first, second, firstChosen, trials }: Pair): string {
  const [one, other] = [nameOf(view, first), nameOf(view, second)];
  const secondChosen = trials - firstChosen;
  if (firstChosen === secondChosen)
    return `${one} and ${other} preferred ${firstChosen} of ${trials} times each`;
  return firstChosen > secondChosen
    ? `${one} preferred ${firstChosen} of ${trials} times, against ${other}`
    : `${other} preferred ${secondChosen} of ${trials} times, against ${one}`;
}

/** Whether chance could have given as much: by the exact interval of 95 %. */
const verdict = ({ low, high }: Pair): string =>
  low > 0.5 || high < 0.5
    ? "Chance alone seldom gives that: a preference."
    : "Chance alone may give that: no clear preference.";
