import { percent, withUnit } from "../../widgets/typeset.js";
import { atLeast } from "./binomial.js";
import { isTrialCount, mostTrials } from "./startTrial.js";
import type { TrialPlan, TrialResult } from "./trial.js";

/** Where the trial's ideas come from, and what it is not. */
export const borrowed =
  "Borrowed from ITU-R BS.1116 and BS.1534: labels and order are hidden, one of the sounds is a hidden reference (X is A or B), " +
  "all are matched in loudness, you may loop and switch freely, and a switch is never a crossfade. It is not a test to those " +
  "documents: there is one listener, untrained as far as this page knows, no anchors, and no controlled room or level.";

/** What a count of right answers does and does not say. */
export const tellApartMeaning =
  "The probability is that of as many right answers or more by guessing. A small one says that you heard a difference here: " +
  "with this take, at this level, on this gear. A large one does not say that there is none. It says nothing about which is " +
  "better. The number of trials is fixed beforehand because stopping at a lucky moment makes any result look good.";

export const preferenceMeaning =
  "The interval holds the true share in 95 of 100 such trials (exact, Clopper and Pearson). Where it holds 50 %, the trial does " +
  "not tell which you prefer. It is your preference, with this take, on this gear; with several pairs, one of them may lean by chance.";

/** What a trial asks, and how many right answers tell a difference from guessing. */
export function setupWords({ kind, routings, trials }: TrialPlan): string {
  const apart = kind === "tell-apart";
  const asked = apart
    ? "A, B and X are hidden routings; X is the same as A or as B. You say which. "
    : "A and B are two hidden routings. You say which you prefer. ";
  const needed = apart && isTrialCount(trials) ? neededWords(trials) : "";
  const pairs = routings.length > 2 ? " Each trial takes two of those chosen, all pairs equally often." : "";
  return `${asked}${needed}${pairs}`.trim();
}

/** Why a trial cannot be started so; null when it can. */
export function faultWords({ routings, trials }: TrialPlan): string | null {
  if (routings.length < 2) return "Choose two routings or more.";
  if (!isTrialCount(trials)) return `The number of trials is a whole number from 1 to ${mostTrials}.`;
  return null;
}

/** "10 of 12": the least number of right answers that guessing reaches in at most 5 % of trials; null when none does. */
export function neededWords(trials: number): string {
  for (let right = 0; right <= trials; right++) {
    const chance = atLeast(right, trials);
    if (chance <= 0.05)
      return `${right} of ${trials} right or more come about by guessing in ${share(chance)} of trials.`;
  }
  return `With ${trials === 1 ? "one trial" : `${trials} trials`} even a full score comes about by guessing in more than 5 % of trials. Take at least 5.`;
}

/** The result in a sentence. */
export function tellApartWords({
  correct,
  trials,
  probability,
}: NonNullable<TrialResult["tellApart"]>): string {
  const verdict =
    probability <= 0.05
      ? "You told them apart better than guessing would."
      : "That is within what guessing gives.";
  return `${correct} of ${trials} right. Guessing alone gets as many or more in ${share(probability)} of such trials. ${verdict}`;
}

/** A probability with two figures: 3.8 %, 0.024 %. */
export function share(probability: number): string {
  if (probability >= 0.0995) return withUnit(percent(probability), "%");
  return withUnit(String(Number((100 * probability).toPrecision(2))), "%");
}
