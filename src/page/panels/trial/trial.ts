/** A blind trial as a person sets it up: fixed before it starts. `startTrial` runs it. */
export interface TrialPlan {
  /** tell-apart: which of A and B is X? prefer: which of A and B do you like better? */
  readonly kind: "tell-apart" | "prefer";
  /** Two or more of `Player.choices`; each trial takes two of them, all pairs equally often as far as it goes. */
  readonly routings: readonly string[];
  readonly trials: number;
}

/** A running trial. `sounds` must reach nothing but `Player.playBlind`. */
export interface Trial {
  readonly plan: TrialPlan;
  /** Trials answered so far. */
  readonly answered: number;
  /** The one to answer now; null when all are answered. */
  readonly sounds: { readonly A: string; readonly B: string; readonly X: string | null } | null;
  answer(choice: "A" | "B"): void;
  /** Null until the last answer is given. */
  readonly result: TrialResult | null;
}

export interface TrialResult {
  readonly schemaVersion: 1;
  readonly kind: TrialPlan["kind"];
  /** When it was started (ISO 8601, UTC). */
  readonly started: string;
  readonly rig: string;
  readonly take: string;
  /** As the rig was set, as a rig file. */
  readonly settings: string;
  /** What was played, s; null for the whole take. */
  readonly loop: { readonly from: number; readonly to: number } | null;
  /** Heard in mono. */
  readonly folded: boolean;
  readonly answers: readonly {
    readonly A: string;
    readonly B: string;
    readonly X: string | null;
    readonly answer: "A" | "B";
    /** Null where there is no right answer. */
    readonly correct: boolean | null;
  }[];
  /** Null for `prefer`. `probability`: of at least as many right answers by guessing, exact and one-sided. */
  readonly tellApart: {
    readonly correct: number;
    readonly trials: number;
    readonly probability: number;
  } | null;
  /** Null for `tell-apart`. One a pair; `low` and `high` bound the share of `first`, 95 %, exact. */
  readonly prefer:
    | readonly {
        readonly first: string;
        readonly second: string;
        readonly firstChosen: number;
        readonly trials: number;
        readonly low: number;
        readonly high: number;
      }[]
    | null;
}
