import type { Extent } from "../contract/pageData.js";
import { el, setText } from "../widgets/dom.js";
import type { ExtentSwitch } from "./extentSwitch.js";

/** The way from what is shown to the rest, or back: a link, so that the browser's own way back works too. */
export function extentLink(extents: ExtentSwitch) {
  const node = el("a", { class: "extent" });
  let leadsTo: Extent = "everything";
  // Elsewhere the address changes, and the switch follows it.
  node.addEventListener("click", () => {
    if (location.hash === `#${leadsTo}`) extents.keep(leadsTo);
  });
  return {
    node,
    show(extent: Extent): void {
      leadsTo = extent === "short" ? "everything" : "short";
      node.href = `#${leadsTo}`;
      setText(node, words[leadsTo]);
    },
  };
}

const words: Readonly<Record<Extent, string>> = {
  everything: "Everything: knobs, figures, sheets",
  short: "The player\u2019s view",
};
