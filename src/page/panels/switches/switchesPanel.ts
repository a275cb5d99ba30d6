import { switchesLead, thresholdWords } from "../../../words/switchesWords.js";
import { sectionOf } from "../../../work/switches/switchSection.js";
import type { Switches } from "../../contract/bench.js";
import { el, fill, newId } from "../../widgets/dom.js";
import { onDemandStatus } from "../../widgets/onDemandStatus.js";
import { printOnly } from "../../widgets/printOnly.js";
import { button, section } from "../../widgets/section.js";
import { type Panel, reportOf, type View } from "../view.js";
import { switchesOfRouting } from "./switchesTable.js";

/** What every footswitch does: worked out when a person asks, since it renders every state of every routing. */
export function switchesPanel(view: View): Panel {
  const { bench } = view;
  const id = newId("switches");
  const picker = el("select", { id });
  const start = button("Work it out", () => {
    const all = possible();
    bench.measureSwitches(picker.value === "" ? all.map((routing) => routing.id) : [picker.value]);
  });
  const printed = button("Print this", () => printOnly("switches"));
  const status = onDemandStatus("Rendering the states of the footswitches", () => bench.stopSwitches());
  const results = el("div", { class: "switch-results" });
  const possible = () => reportOf(view).routings.filter((routing) => routing.build !== null);
  let shown: Switches["found"] = null;

  const list = () => {
    const kept = picker.value;
    const routings = possible();
    fill(
      picker,
      el("option", { value: "" }, `all ${routings.length} routings`),
      ...routings.map((routing) => el("option", { value: routing.id }, routing.label)),
    );
    picker.value = routings.some((routing) => routing.id === kept) ? kept : "";
  };
  const update = () => {
    const { found, progress } = bench.switches;
    start.disabled = progress !== null || bench.player.lengthSeconds === 0;
    printed.disabled = found === null;
    status.update(bench.switches);
    if (found === shown || found === null) return;
    shown = found;
    fill(results, ...resultsOf(view, found));
    view.say("What the footswitches do is worked out.");
  };
  list();
  update();
  return {
    node: section(
      "switches",
      "Switches",
      el("p", { class: "lead" }, switchesLead),
      el("div", { class: "actions" }, el("label", { for: id }, "Routing"), picker, start, printed),
      ...status.nodes,
      results,
    ),
    update(change) {
      if (change === "report") list();
      if (change === "switches" || change === "rig" || change === "take" || change === "player") update();
    },
  };
}

function resultsOf(view: View, found: NonNullable<Switches["found"]>): readonly HTMLElement[] {
  const all = sectionOf(found);
  const { heading, lines, notes } = thresholdWords(all);
  return [
    el("p", { class: "of" }, `${view.bench.rig.name}, heard on ${view.bench.takeName}`),
    ...all.routings.map(switchesOfRouting),
    el(
      "section",
      { class: "thresholds" },
      el("h3", {}, heading),
      lines.length > 0 ? el("ul", {}, ...lines.map((line) => el("li", {}, line))) : null,
      ...notes.map((note) => el("p", { class: "small" }, note)),
    ),
  ];
}
