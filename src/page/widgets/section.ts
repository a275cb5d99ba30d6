import { type Child, el, newId } from "./dom.js";

/** A section of the page under its heading, which names it. */
export function section(id: string, title: string, ...children: readonly Child[]): HTMLElement {
  const heading = newId("heading");
  return el(
    "section",
    { id, class: `panel ${id}`, "aria-labelledby": heading },
    el("h2", { id: heading }, title),
    ...children,
  );
}

/** A table wider than its place scrolls by itself; then it can be reached by Tab, so it has a name. */
export function scroller(name: string, ...children: readonly Child[]): HTMLElement {
  return el("div", { class: "scroller", role: "region", tabindex: 0, "aria-label": name }, ...children);
}

export interface TableColumn {
  readonly heading: string;
  /** Under the heading, in small letters. */
  readonly unit?: string;
  readonly text?: boolean;
}

/** A table of text and right-aligned numbers; the first cell of a row heads it. */
export function table(
  caption: string,
  columns: readonly TableColumn[],
  rows: readonly (readonly Child[])[],
): HTMLTableElement {
  const kind = (n: number): string => (n === 0 || columns[n]?.text ? "text" : "number");
  return el(
    "table",
    {},
    el("caption", {}, caption),
    el(
      "thead",
      {},
      el(
        "tr",
        {},
        ...columns.map(({ heading, unit }, n) =>
          el(
            "th",
            { scope: "col", class: kind(n) },
            heading,
            unit ? el("span", { class: "unit" }, ` ${unit}`) : null,
          ),
        ),
      ),
    ),
    el(
      "tbody",
      {},
      ...rows.map((row) =>
        el(
          "tr",
          {},
          ...row.map((cell, n) =>
            n === 0 ? el("th", { scope: "row", class: "text" }, cell) : el("td", { class: kind(n) }, cell),
          ),
        ),
      ),
    ),
  );
}

/** A button that does one thing. */
export function button(words: string, act: () => void, look = ""): HTMLButtonElement {
  const made = el("button", { type: "button", class: look || null }, words);
  made.addEventListener("click", act);
  return made;
}
