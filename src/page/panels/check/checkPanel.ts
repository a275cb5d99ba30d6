import { comparedWords, kindWords, skippedByReason, verdictWords } from "../../../words/crosscheckWords.js";
import type { CrosscheckedRouting } from "../../../work/crosscheck/crosscheck.js";
import type { EngineCheck } from "../../contract/bench.js";
import { el, fill } from "../../widgets/dom.js";
import { onDemandStatus } from "../../widgets/onDemandStatus.js";
import { button, scroller, section, table } from "../../widgets/section.js";
import { decimal } from "../../widgets/typeset.js";
import { type Panel, reportOf, type View } from "../view.js";

/** The engine against the browser's own, when a person asks: how far two renders of one wiring are apart. */
export function checkPanel(view: View): Panel {
  const { bench } = view;
  const start = button("Check the engine", () =>
    bench.checkEngine(reportOf(view).routings.flatMap(({ id, build }) => (build === null ? [] : [id]))),
  );
  const status = onDemandStatus("Rendering every routing a second time", () => bench.stopCheck());
  const results = el("div", {});
  let shown: EngineCheck["found"] = null;
  const update = () => {
    const state = bench.engineCheck;
    start.disabled = state.progress !== null || bench.player.lengthSeconds === 0;
    status.update(state);
    if (state.found === shown || state.found === null) return;
    shown = state.found;
    fill(results, ...resultsOf(state.found));
    view.say(verdictWords(state.found));
  };
  update();
  return {
    node: section(
      "engine",
      "Engine",
      el("p", { class: "lead" }, lead),
      el("div", { class: "actions" }, start),
      ...status.nodes,
      results,
    ),
    update(change) {
      if (change === "check" || change === "rig" || change === "take" || change === "player") update();
    },
  };
}

const lead =
  "Is what you hear the wiring that is drawn? The first five seconds of the take through every routing by a second engine, the one in this browser, built by others.";

function resultsOf(found: readonly CrosscheckedRouting[]): readonly HTMLElement[] {
  const compared = found.filter(({ skipped }) => skipped === null);
  const skipped = skippedByReason(found);
  const figures = () =>
    scroller(
      "Differences of the two engines",
      table(
        comparedWords("this browser"),
        [
          { heading: "Routing" },
          { heading: "RMS", unit: "dBFS" },
          { heading: "peak", unit: "dBFS" },
          { heading: "RMS at most", unit: "dBFS" },
          { heading: "in it", text: true },
        ],
        compared.map((routing) => [
          routing.label,
          figure(routing.rmsDbfs),
          figure(routing.peakDbfs),
          figure(routing.targetDbfs, 0),
          kindWords(routing),
        ]),
      ),
    );
  return [
    ...(compared.length > 0 ? [figures()] : []),
    ...skipped.map(({ reason, routings }) =>
      el(
        "p",
        { class: "small" },
        `Not compared: ${routings.map(({ label }) => label).join(", ")}. ${reason}.`,
      ),
    ),
    el("p", {}, verdictWords(found)),
  ];
}

const figure = (value: number | null, decimals = 1): string =>
  value === null ? "none" : decimal(value, decimals);
