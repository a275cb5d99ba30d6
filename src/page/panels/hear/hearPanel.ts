import { el } from "../../widgets/dom.js";
import { Transport } from "../playing/transport.js";
import { volumeControl } from "../playing/volume.js";
import type { Panel, View } from "../view.js";
import { choicePick } from "./choicePick.js";
import { chooser } from "./chooser.js";
import { keepChoice } from "./keepChoice.js";
import { levelControls } from "./levelControls.js";

/** Listen: which routing, where in the take, at what level. */
export function hearPanel(view: View): Panel {
  const pick = choicePick(view);
  const shown = [
    new Transport(view.bench, pick.node),
    volumeControl(view.bench.player),
    chooser(view),
    levelControls(view),
    keepChoice(view),
  ];
  const hint = el("p", { class: "hint" }, "Press ? for the keys.");
  return {
    children: [...shown.map(({ node }) => node), hint],
    update(change) {
      if (change === "progress" || change === "fault") return;
      for (const part of [pick, ...shown]) part.update(change);
    },
  };
}
