import { type Child, el, fill, newId } from "./dom.js";

/** A section of the page under its heading, which names it; `refill` puts other things under it. */
export interface PageSection {
  readonly node: HTMLElement;
  refill(...children: readonly Child[]): void;
}

export function pageSection(id: string, title: string): PageSection {
  const headingId = newId("heading");
  const heading = el("h2", { id: headingId }, title);
  const node = el("section", { id, class: `panel ${id}`, "aria-labelledby": headingId }, heading);
  return { node, refill: (...children) => fill(node, heading, ...children) };
}
