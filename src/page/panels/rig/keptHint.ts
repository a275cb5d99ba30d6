import { el } from "../../widgets/dom.js";
import type { PagePart, View } from "../view.js";

/** Told where the browser would lose the work. */
export function keptHint({ bench }: View): PagePart {
  const node = el(
    "p",
    { class: "caution" },
    "This browser keeps nothing of a page from disk: save the page or the rig file before you close it.",
  );
  const update = () => {
    node.hidden = bench.isWorkKept;
  };
  update();
  return { node, update };
}
