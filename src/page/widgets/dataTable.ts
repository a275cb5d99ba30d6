import { type Child, el } from "./dom.js";

/**
 * What is wider than its place scrolls by itself, and says that it does; then it can be reached by Tab, so it has a name.
 */
export function scroller(name: string, ...children: readonly Child[]): HTMLElement {
  const hint = el("p", { class: "sideways", hidden: true }, "More to the right: swipe, or press \u2192.");
  const node = el(
    "div",
    { class: "scroller", role: "region", tabindex: 0, "aria-label": name },
    hint,
    ...children,
  );
  const look = () => {
    const beyond = node.scrollWidth - node.clientWidth;
    hint.hidden = beyond < 2;
    node.classList.toggle("goes-on", beyond - node.scrollLeft > 1);
  };
  node.addEventListener("scroll", look, { passive: true });
  new ResizeObserver(look).observe(node);
  return node;
}

export interface TableColumn {
  readonly heading: string;
  /** Under the heading, in small letters. */
  readonly unit?: string;
  /** What it says to who does not know the heading, in small letters. */
  readonly plain?: string | undefined;
  readonly text?: boolean;
}

/** A table of text and right-aligned numbers; the first cell of a row heads it. */
export function table(
  caption: string,
  columns: readonly TableColumn[],
  rows: readonly (readonly Child[])[],
): HTMLTableElement {
  const kinds = columns.map(({ text }, n) => (n === 0 || text ? "text" : "number"));
  const headings = columns.map((column, n) => columnHeading(column, kinds[n]));
  return el(
    "table",
    {},
    el("caption", {}, el("span", { class: "stays" }, caption)),
    el("thead", {}, el("tr", {}, ...headings)),
    el("tbody", {}, ...rows.map((row) => tableRow(row, kinds))),
  );
}

function columnHeading({ heading, unit, plain }: TableColumn, kind: string): HTMLElement {
  const small = unit ? el("span", { class: "unit" }, ` ${unit}`) : null;
  const said = plain ? el("span", { class: "plain" }, ` ${plain}`) : null;
  return el("th", { scope: "col", class: kind }, heading, small, said);
}

function tableRow([head, ...cells]: readonly Child[], [, ...kinds]: readonly string[]): HTMLElement {
  return el(
    "tr",
    {},
    el("th", { scope: "row", class: "text" }, head),
    ...cells.map((cell, n) => el("td", { class: kinds[n] ?? "number" }, cell)),
  );
}
