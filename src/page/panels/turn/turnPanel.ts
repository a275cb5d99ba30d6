import { chainOf } from "../../../rig/model/chain.js";
import { dryId } from "../../../rig/wiring/dryWiring.js";
import { whyLoadingIsNotHeard } from "../../../rig/wiring/loading.js";
import { cuedWav } from "../../../sound/audio/cuedWav.js";
import { safeFileName } from "../../../text/fileName.js";
import { reelText } from "../../../words/reelText.js";
import type { Reel } from "../../../work/compare/reel.js";
import { button } from "../../widgets/button.js";
import { el } from "../../widgets/dom.js";
import { download, textFile } from "../../widgets/download.js";
import { nameOf, type PagePart, type Panel, type View } from "../view.js";
import { inColumns } from "./cardColumns.js";
import { loadingCard } from "./loadingCard.js";
import { mixerCard } from "./mixerCard.js";
import { pedalCard } from "./pedalCard.js";

/** Every knob of the rig, and what can be done with where they stand. */
export function turnPanel(view: View): Panel {
  const { bench } = view;
  const cards = cardsOf(view);
  const wav = button("Save this routing as WAV", () => saveWav(view));
  const update: Panel["update"] = (change) => {
    if (change !== "rig" && change !== "report" && change !== "player") return;
    for (const card of cards) card.update(change);
    wav.disabled = bench.player.lengthSeconds === 0 || bench.player.chosen === dryId;
  };
  update("rig");
  const back = button("Back to the rig file\u2019s settings", () => reset(view));
  const saves = [
    button("Save as rig file", () => saveRig(view)),
    wav,
    button("Save a reel of all choices", () => saveReel(view)),
    button("Save the reel\u2019s start times", () => saveReelTimes(view)),
  ];
  return {
    children: [
      el("p", { class: "lead" }, lead),
      el("div", { class: "actions" }, back),
      inColumns(cards.map(({ node }) => node)),
      el("div", { class: "actions" }, ...saves),
    ],
    update,
  };
}

/** One WAV file with a cue point for each choice, over the loop where it is on. */
const saveReel = (view: View): void =>
  withReel(view, (reel, name) => {
    const bytes = new Uint8Array(cuedWav(reel.clip, reel.cues));
    download(new Blob([bytes], { type: "audio/wav" }), `${name}.wav`);
  });

const saveReelTimes = (view: View): void =>
  withReel(view, (reel, name) => download(textFile(reelText(reel), "text/plain"), `${name}.txt`));

function withReel({ bench, say }: View, save: (reel: Reel, name: string) => void): void {
  const reel = bench.reel();
  if (reel) save(reel, safeFileName(`${bench.rig.name} reel`));
  else say("Nothing is rendered yet.");
}

const lead =
  "Mixer moves are heard at once. Anything else is rendered again while the sound goes on; figures and plots follow.";

function cardsOf(view: View): readonly PagePart[] {
  const { rig } = view.bench;
  const { units } = chainOf(rig);
  const isUnit = (name: string) => units.some((unit) => unit.name === name);
  const cards = rig.pedals.map(({ name }) => pedalCard(view.bench, name, isUnit(name)));
  const loading = whyLoadingIsNotHeard({ ...rig, leavesLoadingOut: false }) === null;
  return [
    ...cards,
    ...(units.length > 0 ? [mixerCard(view.bench)] : []),
    ...(loading ? [loadingCard(view.bench)] : []),
  ];
}

function reset({ bench, say }: View): void {
  bench.reset();
  say("Back to the settings of the rig file.");
}

function saveRig({ bench }: View): void {
  download(textFile(bench.desk.text, "application/yaml"), `${safeFileName(bench.rig.name)}.yaml`);
  bench.desk.saved();
}

function saveWav(view: View): void {
  const { bench } = view;
  const { chosen } = bench.player;
  download(bench.routingWav(chosen), `${safeFileName(`${bench.rig.name} ${nameOf(view, chosen)}`)}.wav`);
}
