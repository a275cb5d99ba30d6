import { el } from "../../widgets/dom.js";
import type { Panel, View } from "../view.js";
import { correlationPlot } from "./correlationPlot.js";
import { decayPlot } from "./decayPlot.js";
import { fieldPlot } from "./fieldPlot.js";
import { figuresOf } from "./figuresTable.js";
import { octaveFoldPlot, octaveWidthPlot } from "./octavesPlot.js";
import { PlotLegend } from "./plotLegend.js";
import type { PlotView } from "./series.js";
import { thirdsPlot } from "./thirdsPlot.js";
import { tradeOffPlot } from "./tradeOffPlot.js";

/** What the measures show: the table of figures first, then the plots. */
export function seePanel(view: View): Panel {
  const hidden = new Set<string>();
  const plotView: PlotView = { ...view, hidden };
  const legend = new PlotLegend(view, (id, isShown) => {
    if (isShown) hidden.delete(id);
    else hidden.add(id);
    update();
  });
  const figures = figuresOf(view);
  const plots = plotsOf(plotView);
  const update = () => {
    for (const part of [legend, figures, ...plots]) part.update();
  };
  let chosen = view.bench.player.chosen;
  update();
  return {
    children: [figures.node, legend.node, el("div", { class: "plots" }, ...plots.map(({ node }) => node))],
    update(change) {
      const hasMoved = chosen !== view.bench.player.chosen;
      chosen = view.bench.player.chosen;
      if (change === "report" || (change === "player" && hasMoved)) update();
    },
  };
}

const plotsOf = (view: PlotView) =>
  [tradeOffPlot, correlationPlot, fieldPlot, octaveWidthPlot, octaveFoldPlot, thirdsPlot, decayPlot].map(
    (plot) => plot(view),
  );
