import { plainWords } from "../../../words/plainWords.js";
import { priceInShort } from "../../../words/priceWords.js";
import { table } from "../../widgets/dataTable.js";
import { PlotFigure } from "../../widgets/plots/plotFigure.js";
import { decimal, nothing, percent, withUnit } from "../../widgets/typeset.js";
import { allSeries, type PlotView, seriesName, shownSeries } from "./series.js";
import { drawTradeOff, extraBoxes } from "./tradeOffDrawing.js";

/** The choice in one picture: width kept against what is lost in mono, with the boxes that it takes. */
export const tradeOffPlot = (view: PlotView): PlotFigure =>
  new PlotFigure({
    title: "The trade-off: width against what mono loses",
    reads:
      "High: much of the reference\u2019s width. Left: little lost in mono. Larger marks take more boxes beyond your own.",
    wide: true,
    draw: (width) => drawTradeOff(shownSeries(view), width),
    summary: () => summary(view),
    table: () => tradeOffTable(view),
  });

function summary(view: PlotView): string {
  const others = allSeries(view).filter(
    ({ isReference, measures }) => !isReference && measures.widthKept !== null,
  );
  const kept = [...others].sort((a, b) => (b.measures.widthKept ?? 0) - (a.measures.widthKept ?? 0));
  const [best] = kept;
  if (!best) return "Nothing to weigh: no other routing has a width.";
  const boxes = extraBoxes(best);
  const none = kept.filter(({ measures }) => (measures.widthKept ?? 0) < 0.01).map(({ label }) => label);
  return (
    `Keeps most beside the reference: ${best.label}, ${withUnit(percent(best.measures.widthKept), "%")} of its width, ` +
    `${withUnit(decimal(best.measures.foldDownLossDb, 1), "dB")} lost in mono, ${boxes} extra ${boxes === 1 ? "box" : "boxes"}.` +
    (none.length > 0 ? ` No width left: ${none.join(", ")}.` : "")
  );
}

const tradeOffTable = (view: PlotView): HTMLTableElement =>
  table(
    "Width kept, loss in mono, and extra boxes",
    [
      { heading: "Routing" },
      { heading: "width kept", unit: "%", plain: plainWords.widthKept },
      { heading: "loss in mono", unit: "dB", plain: plainWords.foldDownLossDb },
      { heading: "extra boxes", plain: plainWords.extraBoxes },
      { heading: "to buy", plain: plainWords.price },
    ],
    allSeries(view).map((series) => [
      seriesName(series),
      percent(series.measures.widthKept),
      decimal(series.measures.foldDownLossDb, 1),
      String(extraBoxes(series)),
      series.routing.build ? priceInShort(series.routing.build) : nothing,
    ]),
  );
