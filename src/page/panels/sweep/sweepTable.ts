import { wordingOf } from "../../../work/sweep/figures.js";
import { button, table } from "../../widgets/section.js";
import { figureCell, knobName, knobTitle, valueText } from "./sweepPoints.js";
import type { SweepPlotActs, SweepState } from "./sweepState.js";

/** Rows that a table of the page has at most. */
const mostRows = 100;

/** The best in sight, with a button each that sets the rig to it. */
export function sweepTable(state: SweepState, acts: SweepPlotActs): HTMLTableElement {
  const { sweep, x, y } = state;
  const paths = sweep.vary.flat().map(({ path }) => path);
  const measures = [...new Set([y, x, ...sweep.aims.map(({ measure }) => measure)])];
  const all = [...state.inSight()].sort((a, b) => a.rank - b.rank);
  const rows = all.slice(0, mostRows);
  const caption =
    all.length > mostRows
      ? `The best ${mostRows} of ${all.length} in sight; sweep.csv has all of them`
      : "All in sight, the best first";
  return table(
    caption,
    [
      { heading: "rank" },
      { heading: "routing", text: true },
      ...paths.map((path) => ({ heading: knobTitle(path), text: false })),
      ...measures.map((measure) => {
        const { name, unit } = wordingOf(measure);
        return { heading: name, unit, text: false };
      }),
      { heading: "front", text: true },
      ...(sweep.want.length > 0 ? [{ heading: "wishes", text: true }] : []),
      { heading: "hear", text: true },
    ],
    rows.map((point) => {
      const hear = button("Set", () => acts.hear(point));
      const words = paths.map((path) => `${knobName(path).name} ${valueText(point.settings[path])}`);
      hear.setAttribute("aria-label", `Set the rig to rank ${point.rank}, ${words.join(", ")}`);
      return [
        String(point.rank),
        acts.nameOf(point.routing),
        ...paths.map((path) => valueText(point.settings[path])),
        ...measures.map((measure) => figureCell(point, measure)),
        point.front ? "yes" : "no",
        ...(sweep.want.length > 0
          ? [point.meets === null ? "not known" : point.meets ? "met" : "missed"]
          : []),
        hear,
      ];
    }),
  );
}
