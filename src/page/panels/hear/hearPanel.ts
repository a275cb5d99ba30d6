import { el } from "../../widgets/dom.js";
import { Transport } from "../playing/transport.js";
import { volumeControl } from "../playing/volume.js";
import { takePick } from "../takePick.js";
import type { PagePart, Panel, View } from "../view.js";
import { choicePick } from "./choicePick.js";
import { chooser } from "./chooser.js";
import { keepChoice } from "./keepChoice.js";
import { levelControls } from "./levelControls.js";
import { levelInShort } from "./levelInShort.js";
import { shortChoices } from "./shortChoices.js";

/** Listen: which routing, where in the take, at what level. */
export function hearPanel(view: View): Panel {
  const pick = choicePick(view);
  const player = [new Transport(view.bench, pick.node), volumeControl(view.bench.player)];
  const take = takePick(view.bench, (place) => void view.bench.chooseTake(place));
  const inShort = [...(take ? [take] : []), shortChoices(view), levelInShort(view)];
  const inFull = [chooser(view), levelControls(view), keepChoice(view)];
  const hint = el("p", { class: "hint" }, "Press ? for the keys.");
  return {
    children: [
      ...nodesOf(player),
      el("div", { class: "in-short" }, ...nodesOf(inShort)),
      ...nodesOf(inFull).map(ofTheBench),
      hint,
    ],
    update(change) {
      if (change === "progress" || change === "fault") return;
      for (const part of [pick, ...player, ...inShort, ...inFull]) part.update(change);
    },
  };
}

const nodesOf = (parts: readonly PagePart[]): readonly HTMLElement[] => parts.map(({ node }) => node);

/** Not in the player's view. */
function ofTheBench(node: HTMLElement): HTMLElement {
  node.classList.add("in-full");
  return node;
}
