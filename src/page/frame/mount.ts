import type { Bench, BenchChange } from "../contract/bench.js";
import type { PageData } from "../contract/pageData.js";
import { fitSheets } from "../panels/build/fitSheets.js";
import type { PagePart, View } from "../panels/view.js";
import { el, fill } from "../widgets/dom.js";
import { Announcer } from "./announcer.js";
import { listenForDrops } from "./drops.js";
import { keyHelp } from "./keyHelp.js";
import { listenForKeys } from "./keys.js";
import { ListeningNotes } from "./listeningNotes.js";
import { LiveRegion } from "./liveRegion.js";
import { MainStage } from "./mainStage.js";
import { missable } from "./panels.js";
import { progressLine } from "./progressLine.js";
import { ShownPanels } from "./shownPanels.js";
import { pageStyles } from "./styles.js";

/**
 * Draws the page into `root` and keeps it in step with the bench. While a blind trial runs, everything else is out of
 * the document and hears of nothing, so that it cannot give away what is played.
 */
export function mountView(bench: Bench, root: HTMLElement, data: PageData): void {
  const live = new LiveRegion();
  const stage = new MainStage(root, () => missable.forEach(tell));
  const listening = new ListeningNotes(() => tell("player"));
  const view: View = {
    bench,
    data,
    root,
    stage,
    listening,
    goToDrawing: null,
    say: (sentence) => live.say(sentence),
  };
  const panels = new ShownPanels(view);
  const progress = progressLine(bench);
  const help = keyHelp();
  const parts: readonly PagePart[] = [panels.head, ...panels.places, progress];
  function tell(change: BenchChange): void {
    if (change === "shape") panels.renew();
    if (change === "shape" && !stage.soloist) panels.show();
    if (!stage.soloist) listening.note(view);
    for (const part of stage.soloist ? [stage.soloist] : parts) part.update(change);
  }
  panels.show();
  stage.setPanels(panels.places, panels.end);
  fill(
    root,
    el("style", {}, pageStyles()),
    panels.head.node,
    stage.node,
    progress.node,
    live.node,
    dropHint(),
    help.node,
  );
  const announcer = new Announcer(view);
  bench.listen((change) => {
    tell(change);
    announcer.announce(change);
  });
  listenForKeys(view, help);
  listenForDrops(root, (file) => {
    if (stage.soloist) return;
    panels.receive(file);
  });
  addEventListener("beforeprint", () => {
    const sheets = root.querySelector(".sheets");
    if (sheets) fitSheets(sheets);
  });
}

const dropHint = (): HTMLElement =>
  el("p", { class: "drop-hint", "aria-hidden": true }, "Drop the take: it stays on this machine.");
