import { el, setText } from "../../widgets/dom.js";
import { choiceLine, slider } from "../../widgets/slider.js";
import { db, decimal, withUnit } from "../../widgets/typeset.js";
import { type Panel, reportOf, type View } from "../view.js";

/** At what level the choice is heard, in numbers; stereo or mono; and the volume with its caution. */
export function levels(view: View): Panel {
  const { player } = view.bench;
  const level = choiceLine(
    "Level",
    [
      ["matched", "matched"],
      ["wired", "as wired"],
    ],
    (value) => player.setMatched(value === "matched"),
  );
  const width = choiceLine(
    "Channels",
    [
      ["stereo", "stereo"],
      ["mono", "folded to mono"],
    ],
    (value) => player.setFolded(value === "mono"),
  );
  const volume = volumeSlider(view);
  const applied = el("p", { class: "applied" });
  const update = () => {
    level.set(player.matched ? "matched" : "wired");
    width.set(player.folded ? "mono" : "stereo");
    volume.update();
    setText(applied, appliedWords(view));
  };
  update();
  return { node: el("div", { class: "levels" }, level.node, width.node, applied, volume.node), update };
}

/** The volume, and what loud sound does. Used by the blind trial too. */
export function volumeSlider({ bench: { player } }: View): { readonly node: HTMLElement; update(): void } {
  const volume = slider({
    label: "Volume",
    min: -60,
    max: 0,
    step: 1,
    words: (value) => withUnit(decimal(value, 0), "dB"),
    spoken: (value) => `${decimal(value, 0)} decibels, 0 is full`,
    onInput: (value) => player.setVolumeDb(value),
  });
  const update = () => volume.set(player.volumeDb);
  update();
  const caution = el(
    "p",
    { class: "caution" },
    "Start low, above all on headphones: loud sound harms hearing for good, and does not hurt before it does.",
  );
  return { node: el("div", { class: "volume" }, volume.node, caution), update };
}

function appliedWords(view: View): string {
  const { player } = view.bench;
  const gain = db(player.gainDb(player.chosen));
  const { targetLufs } = reportOf(view).matching;
  const fold = player.folded ? " Both sides carry (left + right) / 2." : "";
  if (!player.matched) return `As wired: ${gain} on every choice, so differences in level are heard.${fold}`;
  const target = targetLufs === null ? "" : ` to ${withUnit(decimal(targetLufs, 1), "LUFS")}`;
  return `Matched: ${gain} on this choice brings it${target}, so louder does not win.${fold}`;
}
