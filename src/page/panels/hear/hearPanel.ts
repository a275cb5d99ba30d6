import { el } from "../../widgets/dom.js";
import { Transport } from "../playing/transport.js";
import type { Panel, View } from "../view.js";
import { chooser } from "./chooser.js";
import { levelControls } from "./levelControls.js";

/** Listen: which routing, where in the take, at what level. */
export function hearPanel(view: View): Panel {
  const parts = [new Transport(view.bench), chooser(view), levelControls(view)];
  const hint = el("p", { class: "hint" }, "Press ? for the keys.");
  return {
    children: [...parts.map(({ node }) => node), hint],
    update(change) {
      if (change === "progress" || change === "fault") return;
      for (const part of parts) part.update(change);
    },
  };
}
