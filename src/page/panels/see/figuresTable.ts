import { remarksOf } from "../../../words/remarks.js";
import { el, fill } from "../../widgets/dom.js";
import { scroller, table } from "../../widgets/section.js";
import { swatch } from "../../widgets/swatch.js";
import { decimal, hertz, percent, signed } from "../../widgets/typeset.js";
import { reportOf, type View } from "../view.js";
import { allSeries, seriesName } from "./series.js";

/** The figures of all routings as one table, and what stands out in words. */
export function figures(view: View): { readonly node: HTMLElement; update(): void } {
  const node = el("div", { class: "figures" });
  const update = () => {
    fill(node, scroller("Figures of all routings", figuresTable(view)), standsOut(view));
  };
  return { node, update };
}

function figuresTable(view: View): HTMLTableElement {
  return table(
    "As wired, before any matching",
    [
      { heading: "Routing" },
      { heading: "correlation", unit: "\u22121 to 1" },
      { heading: "side", unit: "%" },
      { heading: "width kept", unit: "%" },
      { heading: "balance", unit: "L to R, dB" },
      { heading: "loss in mono", unit: "dB" },
      { heading: "loudness", unit: "LUFS" },
      { heading: "true peak", unit: "dBTP" },
      { heading: "match", unit: "dB" },
      { heading: "centroid" },
      { heading: "wet to dry", unit: "dB" },
      { heading: "extra boxes" },
    ],
    allSeries(view).map((series) => {
      const { measures: m, routing } = series;
      return [
        el("span", { class: series.isChosen ? "chosen" : "" }, swatch(series.mark), seriesName(series)),
        decimal(m.correlation, 2),
        percent(m.sideShare),
        percent(m.widthKept),
        signed(m.balanceDb, 1),
        decimal(m.foldDownLossDb, 1),
        decimal(m.integratedLufs, 1),
        decimal(m.truePeakDbtp, 1),
        signed(routing.matchGainDb, 1),
        hertz(m.centroidHz),
        signed(m.wetToDryDb, 1),
        String(routing.build?.extraBoxes ?? 0),
      ];
    }),
  );
}

function standsOut(view: View): HTMLElement {
  const report = reportOf(view);
  const remarks = remarksOf(report);
  const told = allSeries(view).filter(({ id }) => (remarks.get(id)?.length ?? 0) > 0);
  return el(
    "div",
    { class: "stands-out" },
    el("h3", {}, "What stands out"),
    el(
      "dl",
      {},
      ...told.flatMap((series) => [
        el("dt", {}, series.label),
        el("dd", {}, `${(remarks.get(series.id) ?? []).join("; ")}.`),
      ]),
    ),
    ...report.notes.map((note) => el("p", { class: "hint" }, note)),
  );
}
