import { el, setText } from "../../widgets/dom.js";
import { swatch } from "../../widgets/swatch.js";
import type { View } from "../view.js";
import { allSeries, type Series, seriesName } from "./series.js";

/** Which routings the plots draw; the colour, dash and mark of each. */
export class PlotLegend {
  readonly node: HTMLElement;
  readonly #view: View;
  readonly #rows: ReadonlyMap<string, { readonly node: HTMLElement; readonly name: HTMLElement }>;

  /** @param onToggle  told whether a routing is drawn */
  constructor(view: View, onToggle: (id: string, isShown: boolean) => void) {
    const all = allSeries(view);
    this.#view = view;
    this.#rows = new Map(
      all.map((series) => [series.id, legendRow(series, (isShown) => onToggle(series.id, isShown))]),
    );
    const rows = [...this.#rows.values()].map(({ node }) => node);
    this.node = el("fieldset", { class: "legend" }, el("legend", {}, "Drawn in the plots"), ...rows);
  }

  update(): void {
    for (const series of allSeries(this.#view)) {
      const row = this.#rows.get(series.id);
      if (!row) continue;
      setText(row.name, seriesName(series));
      row.node.classList.toggle("chosen", series.isChosen);
    }
  }
}

function legendRow({ mark }: Series, onToggle: (isShown: boolean) => void) {
  const input = el("input", { type: "checkbox", checked: true });
  const name = el("span", {});
  input.addEventListener("change", () => onToggle(input.checked));
  return { name, node: el("label", {}, input, swatch(mark), name) };
}
