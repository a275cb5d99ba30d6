import type { Panel, View } from "../panels/view.js";
import { el, setText } from "../widgets/dom.js";

/** How far a render is, in a bar and in words, in a corner of the window where it moves nothing. */
export function progressLine({ bench }: View): Panel {
  const bar = el("progress", { max: 1, "aria-label": "Rendering" });
  const words = el("span", {});
  const node = el("p", { class: "progress", hidden: true }, bar, words);
  const update = () => {
    const { progress } = bench;
    node.hidden = progress === null;
    bar.value = progress?.done ?? 0;
    setText(words, progress ? `${Math.round(100 * progress.done)}\u00a0%, ${progress.what}` : "");
  };
  update();
  return { node, update };
}
