import type { OnDemand } from "../contract/onDemand.js";
import { button } from "./button.js";
import { el, setText } from "./dom.js";
import { ProgressBar } from "./progressBar.js";

/** How far something asked for is, with a way to give it up; what went wrong; and whether it is of other settings. */
export class OnDemandStatus {
  readonly nodes: readonly HTMLElement[];
  readonly #bar: ProgressBar;
  readonly #fault = el("p", { class: "fault", role: "alert" });
  readonly #stale = el("p", { class: "caution", hidden: true });

  /** @param label  what the bar counts, for a listener to the screen */
  constructor(label: string, stop: () => void) {
    this.#bar = new ProgressBar("row working", label, button("Stop", stop));
    this.nodes = [this.#bar.node, this.#fault, this.#stale];
  }

  update({ found, isCurrent, progress, fault }: OnDemand<unknown>): void {
    const isStale = found !== null && !isCurrent;
    this.#bar.show(progress);
    setText(this.#fault, fault ?? "");
    this.#stale.hidden = !isStale;
    setText(this.#stale, isStale ? staleWords : "");
  }
}

const staleWords = "Of other settings or another take than those now: work it out again.";
