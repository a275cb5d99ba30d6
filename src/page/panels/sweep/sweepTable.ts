import { plainWordsOf } from "../../../words/plainWords.js";
import { wordingOf } from "../../../work/sweep/figures.js";
import { button } from "../../widgets/button.js";
import { table } from "../../widgets/dataTable.js";
import { knobName, knobTitle, valueText } from "./knobNames.js";
import { figureCell } from "./measureNames.js";
import type { SweepActions } from "./sweepPlot.js";
import type { SweepPoint } from "./sweepPoints.js";
import type { SweepState } from "./sweepState.js";

/** Rows that a table of the page has at most. */
const mostRows = 100;

/** The best in sight, with a button each that sets the rig to it. */
export function sweepTable(state: SweepState, actions: SweepActions): HTMLTableElement {
  const { sweep, x, y } = state;
  const paths = sweep.vary.flat().map(({ path }) => path);
  const measures = [...new Set([y, x, ...sweep.aims.map(({ measure }) => measure)])];
  const points = [...state.inSight()].sort((a, b) => a.rank - b.rank);
  const hasWishes = sweep.want.length > 0;
  return table(
    captionOf(points.length),
    [
      { heading: "rank" },
      { heading: "routing", text: true },
      ...paths.map((path) => ({ heading: knobTitle(path), text: false })),
      ...measures.map((measure) => {
        const { name, unit } = wordingOf(measure);
        return { heading: name, unit, plain: plainWordsOf(measure), text: false };
      }),
      { heading: "front", text: true },
      ...(hasWishes ? [{ heading: "wishes", text: true }] : []),
      { heading: "hear", text: true },
    ],
    points
      .slice(0, mostRows)
      .map((point) => [
        String(point.rank),
        actions.nameOf(point.routing),
        ...paths.map((path) => valueText(point.settings[path])),
        ...measures.map((measure) => figureCell(point, measure)),
        point.front ? "yes" : "no",
        ...(hasWishes ? [wishesWord(point)] : []),
        setButton(point, paths, actions),
      ]),
  );
}

const captionOf = (count: number): string =>
  count > mostRows
    ? `The best ${mostRows} of ${count} in sight; sweep.csv has all of them`
    : "All in sight, the best first";

const wishesWord = ({ meets }: SweepPoint): string =>
  meets === null ? "not known" : meets ? "met" : "missed";

function setButton(point: SweepPoint, paths: readonly string[], actions: SweepActions): HTMLButtonElement {
  const made = button("Set", () => actions.hear(point));
  const words = paths.map((path) => `${knobName(path).name} ${valueText(point.settings[path])}`);
  made.setAttribute("aria-label", `Set the rig to rank ${point.rank}, ${words.join(", ")}`);
  return made;
}
