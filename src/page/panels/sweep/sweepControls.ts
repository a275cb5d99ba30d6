import { stepsOf } from "../../../work/sweep/grid.js";
import { checkBox } from "../../widgets/checkBox.js";
import { el } from "../../widgets/dom.js";
import { type ListOption, PickList } from "../../widgets/pickList.js";
import { groupTitle } from "./knobNames.js";
import { measureTitle } from "./measureNames.js";
import type { SweepActions } from "./sweepPlot.js";
import type { SweepState } from "./sweepState.js";

/** What is drawn: the measures, the routing, the knobs of the cells, all settings or the front alone. */
export function sweepControls(state: SweepState, actions: SweepActions, onChange: () => void): HTMLElement {
  const setting = (set: (value: string) => void) => (value: string) => {
    set(value);
    onChange();
  };
  const upright = setting((measure) => {
    state.y = measure;
  });
  const level = setting((measure) => {
    state.x = measure;
  });
  const routing = setting((id) => {
    state.routing = id === "" ? null : id;
  });
  const axes = setting((pair) => {
    const [across, up] = pair.split(" ").map(Number);
    state.axes = { across, up };
  });
  const front = checkBox("The front alone", (on) => {
    state.frontOnly = on;
    onChange();
  });
  return el(
    "div",
    { class: "sweep-controls" },
    labelledList("Axis up, and colour of the cells", measureOptions(state), state.y, upright),
    labelledList("Axis across", measureOptions(state), state.x, level),
    labelledList("Routing", routingOptions(state, actions), "", routing),
    axisList(state, axes),
    front.node,
  );
}

const measureOptions = ({ sweep }: SweepState): readonly ListOption[] =>
  Object.keys(sweep.figures).map((name) => [name, measureTitle(name)]);

const routingOptions = ({ sweep }: SweepState, { nameOf }: SweepActions): readonly ListOption[] => [
  ["", "all"],
  ...sweep.routings.map((id) => [id, nameOf(id)] as const),
];

/** Null where there is nothing to choose: a knob or two. */
function axisList(state: SweepState, onChoose: (pair: string) => void): HTMLElement | null {
  const { sweep, axes } = state;
  const turned = sweep.vary.flatMap((group, g) => (stepsOf(group) > 1 ? [g] : []));
  if (turned.length < 3) return null;
  const pairs = turned.flatMap((across) => turned.filter((up) => up !== across).map((up) => [across, up]));
  const options = pairs.map(
    ([across, up]) =>
      [`${across} ${up}`, `${groupTitle(sweep, across)} by ${groupTitle(sweep, up)}`] as const,
  );
  return labelledList("Knobs of the cells", options, `${axes.across} ${axes.up}`, onChoose);
}

function labelledList(
  words: string,
  options: readonly ListOption[],
  chosen: string,
  onChoose: (value: string) => void,
): HTMLElement {
  const picker = new PickList("sweep", words, onChoose);
  picker.setOptions(options, chosen);
  return el("p", {}, picker.label, " ", picker.list);
}
