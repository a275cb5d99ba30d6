import { type Bench, type BenchChange, benchChanges } from "../contract/bench.js";
import type { PageData } from "../contract/pageData.js";
import { fitSheets } from "../panels/build/fitSheets.js";
import type { PagePart, View } from "../panels/view.js";
import { el, fill } from "../widgets/dom.js";
import { Announcer } from "./announcer.js";
import { listenForDrops } from "./drops.js";
import { keyHelp } from "./keyHelp.js";
import { listenForKeys } from "./keys.js";
import { LiveRegion } from "./liveRegion.js";
import { MainStage } from "./mainStage.js";
import { pageHead } from "./pageHead.js";
import { panelPlaces } from "./panels.js";
import { progressLine } from "./progressLine.js";
import { pageStyles } from "./styles.js";

/**
 * Draws the page into `root` and keeps it in step with the bench. While a blind trial runs, everything else is out of
 * the document and hears of nothing, so that it cannot give away what is played.
 */
export function mountView(bench: Bench, root: HTMLElement, data: PageData): void {
  const live = new LiveRegion();
  const stage = new MainStage(root, () => missed.forEach(tell));
  const view: View = { bench, data, root, stage, say: (sentence) => live.say(sentence) };
  const panels = panelPlaces();
  const openAll = () => {
    for (const panel of panels) panel.open(view);
  };
  openAll();
  const head = pageHead(view, panels);
  const progress = progressLine(bench);
  const help = keyHelp();
  const parts: readonly PagePart[] = [head, ...panels, progress];
  function tell(change: BenchChange): void {
    if (change === "shape" && !stage.soloist) openAll();
    for (const part of stage.soloist ? [stage.soloist] : parts) part.update(change);
  }
  stage.setPanels(panels);
  fill(
    root,
    el("style", {}, pageStyles()),
    head.node,
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
    if (!stage.soloist) panels.some((panel) => panel.receive(file));
  });
  addEventListener("beforeprint", () => {
    const sheets = root.querySelector(".sheets");
    if (sheets) fitSheets(sheets);
  });
}

/** What may have changed while a soloist had the page: the rig's shape cannot. */
const missed = benchChanges.filter((change) => change !== "shape");

const dropHint = (): HTMLElement =>
  el("p", { class: "drop-hint", "aria-hidden": true }, "Drop the take: it stays on this machine.");
