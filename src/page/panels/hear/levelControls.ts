import { ChoiceLine } from "../../widgets/choiceLine.js";
import { el, setText } from "../../widgets/dom.js";
import { db, decimal, withUnit } from "../../widgets/typeset.js";
import { type PagePart, reportOf, type View } from "../view.js";

/** At what level the choice is heard, in numbers; and stereo or mono. */
export function levelControls(view: View): PagePart {
  const { player } = view.bench;
  const level = new ChoiceLine("Loudness", levels, (value) => player.setMatched(value === "matched"));
  const width = new ChoiceLine("Channels", widths, (value) => player.setFolded(value === "mono"));
  const applied = el("p", { class: "applied" });
  const update = () => {
    level.set(player.matched ? "matched" : "wired");
    width.set(player.folded ? "mono" : "stereo");
    setText(applied, appliedWords(view));
  };
  update();
  return { node: el("div", { class: "levels" }, level.node, width.node, applied), update };
}

const levels = [
  ["matched", "all alike (matched)"],
  ["wired", "as wired"],
] as const;

const widths = [
  ["stereo", "stereo"],
  ["mono", "folded to mono"],
] as const;

function appliedWords(view: View): string {
  const { player } = view.bench;
  const gain = db(player.gainDb(player.chosen));
  const { targetLufs } = reportOf(view).matching;
  const fold = player.folded ? " Both sides carry (left + right) / 2." : "";
  if (!player.matched) return `As wired: ${gain} on every choice, so differences in level are heard.${fold}`;
  const target = targetLufs === null ? "" : ` (${withUnit(decimal(targetLufs, 1), "LUFS")})`;
  return `Matched: ${gain} on this choice makes it as loud as the others${target}, so louder does not win.${fold}`;
}
