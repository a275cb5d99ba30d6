import { el, fill, newId, setText } from "../dom.js";
import { scroller } from "../section.js";

export interface PlotOptions {
  readonly title: string;
  /** Under the title: what is drawn and how to read it. */
  readonly reads: string;
  /** Draws at a width in px. */
  readonly draw: (width: number) => Element;
  /** What the plot shows now, in words. */
  readonly summary: () => string;
  readonly table: () => HTMLTableElement;
  /** Takes the whole width where others share it. */
  readonly wide?: boolean;
}

export interface PlotFigure {
  readonly node: HTMLElement;
  update(): void;
}

/** A plot with its title, its summary in words, and its table one click away. Drawn again when its width changes. */
export function plotFigure({ title, reads, draw, summary, table, wide }: PlotOptions): PlotFigure {
  const place = el("div", { class: "plot" });
  const words = el("p", { class: "summary" });
  const details = el("details", {}, el("summary", {}, "Table"));
  const heading = newId("figure");
  const node = el(
    "figure",
    { class: wide ? "wide" : null, "aria-labelledby": heading },
    el("h3", { id: heading }, title),
    el("p", { class: "reads" }, reads),
    place,
    words,
    details,
  );
  let width = 0;
  let stale = true;
  const redraw = () => {
    if (width === 0) return;
    stale = false;
    const drawn = draw(width);
    drawn.setAttribute("role", "img");
    drawn.setAttribute("aria-label", `${title}. ${summary()}`);
    fill(place, drawn);
  };
  const fillTable = () => {
    if (!details.open) return;
    details.querySelector(".scroller")?.remove();
    details.append(scroller(`Table: ${title}`, table()));
  };
  details.addEventListener("toggle", fillTable);
  new ResizeObserver(([entry]) => {
    const next = Math.floor(entry.contentRect.width);
    if (next === 0 || (next === width && !stale)) return;
    width = next;
    redraw();
  }).observe(place);
  return {
    node,
    update() {
      stale = true;
      setText(words, summary());
      redraw();
      fillTable();
    },
  };
}
