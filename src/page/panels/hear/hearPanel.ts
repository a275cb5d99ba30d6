import { el } from "../../widgets/dom.js";
import { section } from "../../widgets/section.js";
import { transport } from "../playing/transport.js";
import type { Panel, View } from "../view.js";
import { chooser } from "./chooser.js";
import { levels } from "./levelControls.js";

/** Listen: which routing, where in the take, at what level. */
export function hearPanel(view: View): Panel {
  const parts = [transport(view), chooser(view), levels(view)];
  const hint = el("p", { class: "hint" }, "Press ? for the keys.");
  return {
    node: section("hear", "Hear", ...parts.map(({ node }) => node), hint),
    update(change) {
      if (change === "progress" || change === "fault" || change === "hidden") return;
      for (const part of parts) part.update(change);
    },
  };
}
