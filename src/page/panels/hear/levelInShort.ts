import { el, setText } from "../../widgets/dom.js";
import type { PagePart, View } from "../view.js";

/** Whether louder could win, in a sentence. */
export function levelInShort({ bench: { player } }: View): PagePart {
  const node = el("p", { class: "hint" });
  const update = () => {
    const level = player.matched
      ? "All are played at one loudness, so that louder does not win."
      : "Played as wired: some are louder than others.";
    setText(node, `${level}${player.folded ? " Folded to mono: both sides play (left + right) / 2." : ""}`);
  };
  update();
  return { node, update };
}
