import { atLeast, exactInterval } from "./binomial.js";
import { type Below, cryptoBelow, shuffled } from "./random.js";
import type { Trial, TrialPlan, TrialResult } from "./trial.js";

/** More than anyone hears with care in one sitting; common practice, no source. */
export const mostTrials = 200;

export const isTrialCount = (trials: number): boolean =>
  Number.isInteger(trials) && trials >= 1 && trials <= mostTrials;

type Sounds = NonNullable<Trial["sounds"]>;
type Answers = TrialResult["answers"];
/** What the record says of the sound. */
export type TrialFacts = Pick<TrialResult, "started" | "rig" | "take" | "settings" | "loop" | "folded">;

/**
 * Starts a blind trial. Everything is drawn before the first sound: the pairs in random order, all pairs equally often
 * as far as the number of trials goes; for each, which of the two is A; and for `tell-apart` which of them X is, by a
 * coin of its own, so that guessing is right half of the time whatever came before.
 *
 * It borrows from ITU-R BS.1116 and BS.1534: hidden order, matched level, free switching, and a reference (X) that is
 * one of the two. It is not a test to those documents: one listener, no training, no anchors, no controlled room.
 *
 * @param facts  of what is heard, for the record
 * @param below  the source of chance; the browser's cryptographic one unless told otherwise
 * @throws RangeError for fewer than two routings, one twice, or a number of trials that is not from 1 to 200
 */
export function startTrial(plan: TrialPlan, facts: TrialFacts, below: Below = cryptoBelow): Trial {
  checkPlan(plan);
  return new DrawnTrial(plan, facts, drawTrials(plan, below));
}

function checkPlan({ routings, trials }: TrialPlan): void {
  if (routings.length < 2 || new Set(routings).size !== routings.length) {
    throw new RangeError(`a trial compares two or more different routings, not ${routings.join(", ")}`);
  }
  if (!isTrialCount(trials)) {
    throw new RangeError(`trials is ${trials}; it must be a whole number from 1 to ${mostTrials}`);
  }
}

function drawTrials({ kind, routings, trials }: TrialPlan, below: Below): readonly Sounds[] {
  const pairs = pairsOf(routings);
  const drawn: (readonly [string, string])[] = [];
  while (drawn.length < trials) drawn.push(...shuffled(pairs, below).slice(0, trials - drawn.length));
  return shuffled(drawn, below).map((pair) => {
    const [A, B] = below(2) === 0 ? pair : [pair[1], pair[0]];
    return { A, B, X: kind === "prefer" ? null : below(2) === 0 ? A : B };
  });
}

/** Every two of the routings, each once, in the order given. */
function pairsOf(routings: readonly string[]): readonly (readonly [string, string])[] {
  return routings.flatMap((first, n) => routings.slice(n + 1).map((second) => [first, second] as const));
}

class DrawnTrial implements Trial {
  readonly plan: TrialPlan;
  readonly #facts: TrialFacts;
  readonly #drawn: readonly Sounds[];
  readonly #given: ("A" | "B")[] = [];

  constructor(plan: TrialPlan, facts: TrialFacts, drawn: readonly Sounds[]) {
    this.plan = plan;
    this.#facts = facts;
    this.#drawn = drawn;
  }
  get answered(): number {
    return this.#given.length;
  }
  get sounds(): Sounds | null {
    return this.#drawn[this.#given.length] ?? null;
  }
  /** An answer behind the last is not counted. */
  answer(choice: "A" | "B"): void {
    if (this.sounds) this.#given.push(choice);
  }
  get result(): TrialResult | null {
    if (this.sounds) return null;
    const { kind, routings } = this.plan;
    const answers = this.#drawn.map(({ A, B, X }, n) => {
      const answer = this.#given[n];
      return { A, B, X, answer, correct: X === null ? null : X === (answer === "A" ? A : B) };
    });
    return {
      schemaVersion: 1,
      kind,
      ...this.#facts,
      answers,
      tellApart: kind === "tell-apart" ? tellApart(answers) : null,
      prefer: kind === "prefer" ? preferences(routings, answers) : null,
    };
  }
}

function tellApart(answers: Answers): TrialResult["tellApart"] {
  const correct = answers.filter((answer) => answer.correct).length;
  return { correct, trials: answers.length, probability: atLeast(correct, answers.length) };
}

function preferences(routings: readonly string[], answers: Answers): TrialResult["prefer"] {
  return pairsOf(routings).flatMap(([first, second]) => {
    const asked = answers.filter(
      ({ A, B }) => (A === first && B === second) || (A === second && B === first),
    );
    if (asked.length === 0) return [];
    const firstChosen = asked.filter(({ A, B, answer }) => (answer === "A" ? A : B) === first).length;
    return [
      { first, second, firstChosen, trials: asked.length, ...exactInterval(firstChosen, asked.length) },
    ];
  });
}
