import { el, fill, setText } from "../../widgets/dom.js";
import { swatch } from "../../widgets/swatch.js";
import type { View } from "../view.js";
import { allSeries, seriesName } from "./series.js";

/** Which routings the plots draw; the colour, dash and mark of each. */
export class PlotLegend {
  readonly node: HTMLElement;
  readonly #view: View;
  readonly #rows: ReadonlyMap<string, LegendRow>;

  /** @param onToggle  told whether a routing is drawn */
  constructor(view: View, onToggle: (id: string, isShown: boolean) => void) {
    const all = allSeries(view);
    this.#view = view;
    this.#rows = new Map(
      all.map((series) => [series.id, legendRow((isShown) => onToggle(series.id, isShown))]),
    );
    const rows = [...this.#rows.values()].map(({ node }) => node);
    this.node = el(
      "fieldset",
      { class: "legend" },
      el("legend", {}, "Drawn in the plots, by these numbers where there is no room for names"),
      ...rows,
    );
  }

  update(): void {
    for (const series of allSeries(this.#view)) {
      const row = this.#rows.get(series.id);
      if (!row) continue;
      setText(row.name, seriesName(series));
      setText(row.number, series.number);
      fill(row.mark, swatch({ ...series.mark, colour: series.ink }));
      row.node.classList.toggle("chosen", series.isChosen);
    }
  }
}

interface LegendRow {
  readonly node: HTMLElement;
  readonly number: HTMLElement;
  readonly mark: HTMLElement;
  readonly name: HTMLElement;
}

function legendRow(onToggle: (isShown: boolean) => void): LegendRow {
  const input = el("input", { type: "checkbox", checked: true });
  const [number, mark, name] = [el("span", { class: "number" }), el("span", {}), el("span", {})];
  input.addEventListener("change", () => onToggle(input.checked));
  return { number, mark, name, node: el("label", {}, input, number, mark, name) };
}
