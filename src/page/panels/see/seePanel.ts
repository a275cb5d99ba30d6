import { el, setText } from "../../widgets/dom.js";
import { section } from "../../widgets/section.js";
import { swatch } from "../../widgets/swatch.js";
import type { Panel, View } from "../view.js";
import { correlationPlot } from "./correlationPlot.js";
import { decayPlot } from "./decayPlot.js";
import { fieldPlot } from "./fieldPlot.js";
import { figures } from "./figuresTable.js";
import { octaveFoldPlot, octaveWidthPlot } from "./octavesPlot.js";
import { allSeries, seriesName } from "./series.js";
import { thirdsPlot } from "./thirdsPlot.js";
import { tradeOffPlot } from "./tradeOffPlot.js";

/** What the measures show: the table of figures first, then the plots. */
export function seePanel(view: View): Panel {
  const legend = plotLegend(view);
  const parts = [
    figures(view),
    tradeOffPlot(view),
    correlationPlot(view),
    fieldPlot(view),
    octaveWidthPlot(view),
    octaveFoldPlot(view),
    thirdsPlot(view),
    decayPlot(view),
  ];
  const [table, ...plots] = parts.map(({ node }) => node);
  const update = () => {
    legend.update();
    for (const part of parts) part.update();
  };
  let chosen = view.bench.player.chosen;
  update();
  return {
    node: section("see", "See", table, legend.node, el("div", { class: "plots" }, ...plots)),
    update(change) {
      const moved = chosen !== view.bench.player.chosen;
      chosen = view.bench.player.chosen;
      if (change === "report" || change === "hidden" || (change === "player" && moved)) update();
    },
  };
}

/** Which routings the plots draw; the colour, dash and mark of each. */
function plotLegend(view: View): { readonly node: HTMLElement; update(): void } {
  const rows = allSeries(view).map((series) => {
    const input = el("input", { type: "checkbox", checked: true });
    const name = el("span", {});
    input.addEventListener("change", () => {
      if (input.checked) view.hidden.delete(series.id);
      else view.hidden.add(series.id);
      view.redraw();
    });
    return { id: series.id, name, node: el("label", {}, input, swatch(series.mark), name) };
  });
  return {
    node: el(
      "fieldset",
      { class: "legend" },
      el("legend", {}, "Drawn in the plots"),
      ...rows.map(({ node }) => node),
    ),
    update() {
      const all = allSeries(view);
      for (const { id, name, node } of rows) {
        const series = all.find((one) => one.id === id);
        if (!series) continue;
        setText(name, seriesName(series));
        node.classList.toggle("chosen", series.isChosen);
      }
    },
  };
}
