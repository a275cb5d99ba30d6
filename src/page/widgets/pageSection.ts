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
