import { switchesLead, thresholdWords } from "../../../words/switchesWords.js";
import { sectionOf } from "../../../work/switches/switchSection.js";
import type { Switches } from "../../contract/onDemand.js";
import { button } from "../../widgets/button.js";
import { type Child, el } from "../../widgets/dom.js";
import { PickList } from "../../widgets/pickList.js";
import { printOnly } from "../../widgets/printOnly.js";
import { OnRequest } from "../onRequest.js";
import { buildable, type Panel, type View } from "../view.js";
import { switchesOfRouting } from "./switchesTable.js";

/** What every footswitch does: worked out when a person asks, since it renders every state of every routing. */
export function switchesPanel(view: View): Panel {
  const { bench } = view;
  const picker = new PickList("switches", "Routing");
  const work = new OnRequest<NonNullable<Switches["found"]>>(view, {
    words: "Work it out",
    start: () =>
      bench.workOutSwitches(picker.value === "" ? buildable(view).map(({ id }) => id) : [picker.value]),
    stop: () => bench.stopSwitches(),
    state: () => bench.switches,
    doing: "Rendering the states of the footswitches",
    results: el("div", { class: "switch-results" }),
    draw: (found) => resultsOf(view, found),
    done: () => "What the footswitches do is worked out.",
  });
  const printed = button("Print this", () => printOnly("switches"));
  const update = () => {
    printed.disabled = bench.switches.found === null;
    work.update();
  };
  listRoutings(picker, view);
  update();
  return {
    children: [
      el("p", { class: "lead" }, switchesLead),
      el("div", { class: "actions" }, picker.label, picker.list, work.button, printed),
      ...work.nodes,
    ],
    update(change) {
      if (change === "report") listRoutings(picker, view);
      if (change === "switches" || change === "rig" || change === "take" || change === "player") update();
    },
  };
}

/** What is chosen stays so where it is still there. */
function listRoutings(picker: PickList, view: View): void {
  const before = picker.value;
  const routings = buildable(view);
  picker.setOptions([
    ["", `all ${routings.length} routings`],
    ...routings.map(({ id, label }) => [id, label] as const),
  ]);
  picker.value = routings.some(({ id }) => id === before) ? before : "";
}

function resultsOf(view: View, found: NonNullable<Switches["found"]>): readonly Child[] {
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
