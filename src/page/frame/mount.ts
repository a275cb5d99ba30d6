import { type Bench, type BenchChange, benchChanges } from "../contract/bench.js";
import type { PageData } from "../contract/pageData.js";
import type { PagePart, View } from "../panels/view.js";
import { el, fill } from "../widgets/dom.js";
import { Announcer } from "./announcer.js";
import { keyHelp } from "./keyHelp.js";
import { listenForKeys } from "./keys.js";
import { LiveRegion } from "./liveRegion.js";
import { MainStage } from "./mainStage.js";
import { pageHead } from "./pageHead.js";
import { openPanels } from "./panels.js";
import { progressLine } from "./progressLine.js";
import { pageStyles } from "./styles.js";

/**
 * Draws the page into `root` and keeps it in step with the bench. While a blind trial runs, everything else is out of
 * the document and hears of nothing, so that it cannot give away what is played.
 */
export function mountView(bench: Bench, root: HTMLElement, data: PageData): void {
  const live = new LiveRegion();
  const stage = new MainStage(root, () => benchChanges.forEach(tell));
  const view: View = { bench, data, root, stage, say: (sentence) => live.say(sentence) };
  const panels = openPanels(view);
  const head = pageHead(view, panels);
  const progress = progressLine(bench);
  const help = keyHelp();
  const parts: readonly PagePart[] = [head, ...panels, progress];
  function tell(change: BenchChange): void {
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
}

const dropHint = (): HTMLElement =>
  el("p", { class: "drop-hint", "aria-hidden": true }, "Drop the take: it stays on this machine.");
