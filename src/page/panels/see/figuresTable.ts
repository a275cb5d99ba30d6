import { balanceMeasure } from "../../../sound/measure/balance.js";
import { foldDownMeasure } from "../../../sound/measure/foldDown.js";
import { measures } from "../../../sound/measure/measures.js";
import { truePeakMeasure } from "../../../sound/measure/peakMeasures.js";
import { wetToDryMeasure } from "../../../sound/measure/wetToDry.js";
import { widthKeptMeasure } from "../../../sound/measure/widthKept.js";
import { sentence } from "../../../text/words.js";
import { plainWords, plainWordsOf } from "../../../words/plainWords.js";
import { priceInShort } from "../../../words/priceWords.js";
import { remarksOf } from "../../../words/remarks.js";
import { scroller, table } from "../../widgets/dataTable.js";
import { el, fill } from "../../widgets/dom.js";
import { more } from "../../widgets/more.js";
import { swatch } from "../../widgets/swatch.js";
import { nothing, setFigure, signed } from "../../widgets/typeset.js";
import { reportOf, type View } from "../view.js";
import { allSeries, type Series, seriesName } from "./series.js";

/** The figures of all routings as one table, and what stands out in words. */
export function figuresOf(view: View): { readonly node: HTMLElement; update(): void } {
  const node = el("div", { class: "figures" });
  const [main, rest] = [el("div"), el("div")];
  const standing = el("div");
  const update = () => {
    fill(
      main,
      scroller("Figures of all routings", figuresTable(view, "As wired, before any matching", mainColumns)),
    );
    fill(
      rest,
      scroller(
        "More figures of all routings",
        figuresTable(view, "As wired, before any matching", moreColumns),
      ),
    );
    fill(standing, standsOut(view));
  };
  fill(node, main, more("the figures", rest), standing);
  return { node, update };
}

/** A column of the table. */
interface FigureColumn {
  readonly heading: string;
  readonly unit?: string;
  readonly plain: string | undefined;
  readonly of: (series: Series) => string;
}

const measured = measures.flatMap((measure): readonly (FigureColumn & { readonly id: string })[] => {
  if (measure.shape !== "number" || !measure.tables.page) return [];
  const { id } = measure;
  const { name, unit, format } = { ...measure, ...measure.tables.page };
  const heading = { heading: name, plain: plainWordsOf(id), ...(unit === "" ? {} : { unit }) };
  return [{ id, ...heading, of: (series) => setFigure(series.measures[id], format) }];
});

const match: FigureColumn = {
  heading: "match",
  unit: "dB",
  plain: plainWords.match,
  of: ({ routing }) => signed(routing.matchGainDb, 1),
};
const extraBoxes: FigureColumn = {
  heading: "extra boxes",
  plain: plainWords.extraBoxes,
  of: ({ routing }) => String(routing.build?.extraBoxes ?? 0),
};

const price: FigureColumn = {
  heading: "to buy",
  plain: plainWords.price,
  of: ({ routing }) => (routing.build ? priceInShort(routing.build) : nothing),
};

/** What one chooses by. */
const weighed: readonly string[] = [widthKeptMeasure, foldDownMeasure, balanceMeasure, wetToDryMeasure].map(
  ({ id }) => id,
);
const mainColumns = [price, extraBoxes, ...measured.filter(({ id }) => weighed.includes(id))];
/** The gain of the match stands behind the levels that it comes from. */
const moreColumns = measured
  .filter(({ id }) => !weighed.includes(id))
  .flatMap((column) => (column.id === truePeakMeasure.id ? [column, match] : [column]));

const figuresTable = (view: View, caption: string, columns: readonly FigureColumn[]): HTMLTableElement =>
  table(
    caption,
    [{ heading: "Routing" }, ...columns],
    allSeries(view).map((series) => [
      el("span", { class: series.isChosen ? "chosen" : "" }, swatch(series.mark), seriesName(series)),
      ...columns.map(({ of }) => of(series)),
    ]),
  );

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
        el("dd", {}, sentence((remarks.get(series.id) ?? []).join("; "))),
      ]),
    ),
    ...report.notes.map((note) => el("p", { class: "hint" }, note)),
  );
}
