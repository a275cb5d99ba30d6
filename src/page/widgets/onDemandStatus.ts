import type { OnDemand } from "../contract/bench.js";
import { el, setText } from "./dom.js";
import { button } from "./section.js";

/** How far something asked for is, with a way to give it up; what went wrong; and whether it is of other settings. */
export interface OnDemandStatus {
  readonly nodes: readonly HTMLElement[];
  update(state: OnDemand<unknown>): void;
}

/** @param label  what the bar counts, for a listener to the screen */
export function onDemandStatus(label: string, stop: () => void): OnDemandStatus {
  const bar = el("progress", { max: 1, "aria-label": label });
  const words = el("span", {});
  const working = el("p", { class: "row working", hidden: true }, bar, words, button("Stop", stop));
  const fault = el("p", { class: "fault", role: "alert" });
  const stale = el("p", { class: "caution", hidden: true });
  return {
    nodes: [working, fault, stale],
    update({ found, isCurrent, progress, fault: wrong }) {
      working.hidden = progress === null;
      bar.value = progress?.done ?? 0;
      setText(words, progress ? `${Math.round(100 * progress.done)}\u00a0%, ${progress.what}` : "");
      setText(fault, wrong ?? "");
      stale.hidden = found === null || isCurrent;
      setText(
        stale,
        stale.hidden ? "" : "Of other settings or another take than those now: work it out again.",
      );
    },
  };
}
