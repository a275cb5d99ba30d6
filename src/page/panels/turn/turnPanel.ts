import { chainOf } from "../../../rig/model/chain.js";
import { safeFileName } from "../../../text/fileName.js";
import { el } from "../../widgets/dom.js";
import { download, textFile } from "../../widgets/download.js";
import { button, section } from "../../widgets/section.js";
import { nameOf, type Panel, type View } from "../view.js";
import { inColumns } from "./cardColumns.js";
import { mixerCard } from "./mixerCard.js";
import { type Card, pedalCard } from "./pedalCard.js";

/** Every knob of the rig, and what can be done with where they stand. */
export function turnPanel(view: View): Panel {
  const { bench } = view;
  const { units } = chainOf(bench.rig);
  const isUnit = (name: string) => units.some((unit) => unit.name === name);
  const cards: Card[] = bench.rig.pedals.map(({ name }) => pedalCard(view, name, isUnit(name)));
  if (units.length > 0) cards.push(mixerCard(view));
  const wav = button("Save this routing as WAV", () => saveWav(view));
  const actions = el(
    "div",
    { class: "actions" },
    button("Back to the rig file\u2019s settings", () => {
      bench.reset();
      view.say("Back to the settings of the rig file.");
    }),
    button("Save as rig file", () =>
      download(textFile(bench.rigYaml(), "application/yaml"), `${safeFileName(bench.rig.name)}.yaml`),
    ),
    wav,
  );
  const update = () => {
    for (const card of cards) card.update();
    wav.disabled = bench.player.lengthSeconds === 0 || bench.player.chosen === "dry";
  };
  update();
  return {
    node: section(
      "turn",
      "Turn",
      el(
        "p",
        { class: "lead" },
        "Mixer moves are heard at once. Anything else is rendered again while the sound goes on; figures and plots follow.",
      ),
      actions,
      inColumns(cards),
    ),
    update(change) {
      if (change === "rig" || change === "report" || change === "player") update();
    },
  };
}

function saveWav(view: View): void {
  const { bench } = view;
  const { chosen } = bench.player;
  download(bench.routingWav(chosen), `${safeFileName(`${bench.rig.name} ${nameOf(view, chosen)}`)}.wav`);
}
