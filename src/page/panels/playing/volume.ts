import { leastVolumeDb, type Player } from "../../contract/player.js";
import { el } from "../../widgets/dom.js";
import { Slider } from "../../widgets/slider.js";
import { decimal, withUnit } from "../../widgets/typeset.js";
import type { PagePart } from "../view.js";

/** The volume, and what loud sound does. */
export function volumeControl(player: Player): PagePart {
  const volume = new Slider({
    label: "Volume",
    min: leastVolumeDb,
    max: 0,
    step: 1,
    words: (value) => withUnit(decimal(value, 0), "dB"),
    spoken: (value) => `${decimal(value, 0)} decibels, 0 is full`,
    onInput: (value) => player.setVolumeDb(value),
  });
  const update = () => volume.set(player.volumeDb);
  update();
  return {
    node: el("div", { class: "volume" }, volume.node, el("p", { class: "caution" }, caution)),
    update,
  };
}

const caution =
  "Start low, above all on headphones: loud sound harms hearing for good, and does not hurt before it does.";
