import { ended } from "../../../text/words.js";
import {
  balanceWords,
  comparedWords,
  judgedWords,
  limitWords,
  skippedByReason,
  verdictWords,
} from "../../../words/crosscheckWords.js";
import { plainWords } from "../../../words/plainWords.js";
import type { CrosscheckedRouting } from "../../../work/crosscheck/crosscheck.js";
import { scroller, table } from "../../widgets/dataTable.js";
import { type Child, el } from "../../widgets/dom.js";
import { decimal } from "../../widgets/typeset.js";
import { OnRequest } from "../onRequest.js";
import { buildable, type Panel, type View } from "../view.js";

/** The engine against the browser's own, when a person asks: how far two renders of one wiring are apart. */
export function checkPanel(view: View): Panel {
  const { bench } = view;
  const check = new OnRequest<readonly CrosscheckedRouting[]>(view, {
    words: "Check the engine",
    start: () => bench.checkEngine(buildable(view).map(({ id }) => id)),
    stop: () => bench.stopCheck(),
    state: () => bench.engineCheck,
    doing: "Rendering every routing a second time",
    results: el("div", {}),
    draw: resultsOf,
    done: verdictWords,
  });
  check.update();
  return {
    children: [
      el("p", { class: "lead" }, lead),
      el("div", { class: "actions" }, check.button),
      ...check.nodes,
    ],
    update(change) {
      if (change === "check" || change === "rig" || change === "take" || change === "player") check.update();
    },
  };
}

const lead =
  "Is what you hear the wiring that is drawn? The first five seconds of the take through every routing by a second engine, the one in this browser, built by others.";

function resultsOf(found: readonly CrosscheckedRouting[]): readonly Child[] {
  const compared = found.filter(({ skipped }) => skipped === null);
  const reasons = skippedByReason(found).map(
    ({ reason, routings }) =>
      `Not compared: ${routings.map(({ label }) => label).join(", ")}. ${ended(reason)}`,
  );
  return [
    compared.length > 0 ? scroller("Differences of the two engines", differences(compared)) : null,
    ...judgedWords(found).map((words) => el("p", { class: "small" }, words)),
    ...balanceWords(found, "this browser").map((words) => el("p", { class: "small" }, words)),
    ...reasons.map((words) => el("p", { class: "small" }, words)),
    el("p", {}, verdictWords(found)),
  ];
}

const differences = (compared: readonly CrosscheckedRouting[]): HTMLTableElement =>
  table(
    comparedWords("this browser"),
    [
      { heading: "Routing" },
      { heading: "RMS", unit: "dBFS", plain: plainWords.decibelsFs },
      { heading: "peak", unit: "dBFS" },
      { heading: "RMS at most", unit: "dBFS" },
      { heading: "limit set by", text: true },
    ],
    compared.map((routing) => [
      routing.label,
      figure(routing.rmsDbfs),
      figure(routing.peakDbfs),
      figure(routing.targetDbfs),
      limitWords(routing),
    ]),
  );

const figure = (value: number | null, decimals = 1): string =>
  value === null ? "none" : decimal(value, decimals);
