import { plainWords } from "../../../words/plainWords.js";
import { table } from "../../widgets/dataTable.js";
import { el, fill, setText } from "../../widgets/dom.js";
import { FigureFrame } from "../../widgets/plots/figureFrame.js";
import { decimal, percent, signed, withUnit } from "../../widgets/typeset.js";
import { fieldTile, halfInSight } from "./fieldTile.js";
import { allSeries, largest, type PlotView, seriesName } from "./series.js";

/** Left against right, turned 45 degrees: a thin upright stroke is mono, a round cloud is wide. One picture a routing. */
export function fieldPlot(view: PlotView): { readonly node: HTMLElement; update(): void } {
  const scale = el("p", { class: "reads" });
  const tiles = el("div", { class: "fields" });
  const figure = new FigureFrame(
    {
      title: "Where the sound is: stereo field",
      reads:
        "Over the whole take. Upright: mid, what both sides share, (L + R)/2; level: side, what differs between them, " +
        "(R \u2212 L)/2. A thin upright stroke is mono, a cloud is wide, a level stroke cancels in mono.",
      summary: () => summary(view),
      table: () => fieldTable(view),
      tableName: "Table: stereo field",
      wide: true,
    },
    scale,
    tiles,
  );
  const update = () => {
    const { fields } = view.bench;
    const half = halfInSight([...fields.values()]);
    const shown = allSeries(view).filter(({ id }) => !view.hidden.has(id));
    setText(scale, `The edges stand at \u00b1${decimal(half, 2)} of full scale, alike in all.`);
    fill(tiles, ...shown.map((series) => fieldTile(series, fields.get(series.id), half)));
    figure.update();
  };
  return { node: figure.node, update };
}

function summary(view: PlotView): string {
  const series = allSeries(view);
  const widest = largest(series, ({ sideShare }) => sideShare);
  if (!widest) return "Nothing sounds.";
  const lopsided = largest(series, ({ balanceDb }) => (balanceDb === null ? null : Math.abs(balanceDb)));
  const side = (lopsided?.series.measures.balanceDb ?? 0) > 0 ? "left" : "right";
  const leans =
    lopsided && lopsided.value >= 0.5
      ? ` Most lopsided: ${lopsided.series.label}, ${withUnit(decimal(lopsided.value, 1), "dB")} louder on the ${side}.`
      : " No routing leans to a side by half a decibel.";
  return `Widest: ${widest.series.label}, side share ${withUnit(percent(widest.value), "%")}.${leans}`;
}

const fieldTable = (view: PlotView): HTMLTableElement =>
  table(
    "Width and balance",
    [
      { heading: "Routing" },
      { heading: "side share", unit: "%", plain: plainWords.sideShare },
      { heading: "side to mid", unit: "dB", plain: plainWords.sideToMidDb },
      { heading: "balance, L to R", unit: "dB", plain: plainWords.balanceDb },
      { heading: "IACC", unit: "0 to 1", plain: plainWords.iacc },
    ],
    allSeries(view).map((series) => {
      const { sideShare, sideToMidDb, balanceDb, iacc } = series.measures;
      return [
        seriesName(series),
        percent(sideShare),
        signed(sideToMidDb, 1),
        signed(balanceDb, 1),
        decimal(iacc, 2),
      ];
    }),
  );
