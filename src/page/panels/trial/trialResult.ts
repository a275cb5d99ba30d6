import { safeFileName } from "../../../text/fileName.js";
import { button } from "../../widgets/button.js";
import { scroller, table } from "../../widgets/dataTable.js";
import { el } from "../../widgets/dom.js";
import { download, textFile } from "../../widgets/download.js";
import { percent, withUnit } from "../../widgets/typeset.js";
import { nameOf, type View } from "../view.js";
import type { TrialResult } from "./trial.js";
import { trialCsv, trialJson } from "./trialFile.js";
import { preferenceMeaning, tellApartMeaning, tellApartWords } from "./trialWords.js";

/** What came of a trial: in words, in numbers, answer by answer, and as files. */
export function trialResult(view: View, result: TrialResult, onAgain: () => void): HTMLElement {
  const fileName = safeFileName(`${result.rig} blind trial`);
  return el(
    "div",
    { class: "trial-result" },
    el("h3", { tabindex: -1 }, "Result"),
    result.tellApart ? el("p", { class: "verdict" }, tellApartWords(result.tellApart)) : null,
    result.prefer ? preferences(view, result.prefer) : null,
    el("p", { class: "small" }, result.kind === "tell-apart" ? tellApartMeaning : preferenceMeaning),
    el(
      "div",
      { class: "actions" },
      button("Save as JSON", () =>
        download(textFile(trialJson(result), "application/json"), `${fileName}.json`),
      ),
      button("Save as CSV", () => download(textFile(trialCsv(result), "text/csv"), `${fileName}.csv`)),
      button("Another trial", onAgain),
    ),
    el(
      "details",
      {},
      el("summary", {}, "Every answer"),
      scroller("Every answer of the trial", answers(view, result)),
    ),
  );
}

function preferences(view: View, pairs: NonNullable<TrialResult["prefer"]>): HTMLElement {
  return scroller(
    "Preferences",
    table(
      "How often the first was preferred to the second",
      [
        { heading: "First" },
        { heading: "Second", text: true },
        { heading: "First chosen" },
        { heading: "Share", unit: "%" },
        { heading: "95 % interval", unit: "%" },
      ],
      pairs.map(({ first, second, firstChosen, trials, low, high }) => [
        nameOf(view, first),
        nameOf(view, second),
        `${firstChosen} of ${trials}`,
        percent(firstChosen / trials),
        `${percent(low)} to ${withUnit(percent(high), "")}`,
      ]),
    ),
  );
}

function answers(view: View, { kind, answers: given }: TrialResult): HTMLTableElement {
  const apart = kind === "tell-apart";
  return table(
    "In the order in which they were given",
    [
      { heading: "Trial" },
      { heading: "A", text: true },
      { heading: "B", text: true },
      ...(apart ? [{ heading: "X", text: true }] : []),
      { heading: "Answer", text: true },
      ...(apart ? [{ heading: "Right?", text: true }] : []),
    ],
    given.map(({ A, B, X, answer, correct }, n) => [
      String(n + 1),
      nameOf(view, A),
      nameOf(view, B),
      ...(apart && X ? [nameOf(view, X)] : []),
      apart ? `X is ${answer}` : answer,
      ...(apart ? [correct ? "right" : "wrong"] : []),
    ]),
  );
}
