import { type Child, el } from "./dom.js";

/** What is folded away until it is asked for; `of` tells those who hear the page whose it is. */
export const more = (of: string, ...children: readonly Child[]): HTMLElement =>
  el(
    "details",
    { class: "more" },
    el("summary", {}, "More", el("span", { class: "visually-hidden" }, ` of ${of}`)),
    el("div", {}, ...children),
  );
