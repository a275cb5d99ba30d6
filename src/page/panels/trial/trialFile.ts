import { jsonOf } from "../../../text/json.js";
import { csvText } from "../../../words/csv.js";
import type { TrialResult } from "./trial.js";

/** A result as a JSON file: the whole of it, full precision. */
export const trialJson = (result: TrialResult): string => jsonOf(result);

/** A result as a CSV file: one row an answer, in the order in which they were given. */
export function trialCsv({ kind, started, rig, take, loop, folded, answers }: TrialResult): string {
  return csvText(
    answers.map(({ A, B, X, answer, correct }, n) => ({
      trial: n + 1,
      kind,
      A,
      B,
      X,
      answer,
      chosen: answer === "A" ? A : B,
      correct,
      started,
      rig,
      take,
      loopFromSeconds: loop?.from ?? null,
      loopToSeconds: loop?.to ?? null,
      folded,
    })),
  );
}
