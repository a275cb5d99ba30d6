import type { WorkProgress } from "../contract/onDemand.js";
import { type Child, el, setText } from "./dom.js";

/** How far some work is, in a bar and in words; hidden while there is none. */
export class ProgressBar {
  readonly node: HTMLElement;
  readonly #bar: HTMLProgressElement;
  readonly #words = el("span", {});

  /** @param label  what the bar counts, for a listener to the screen */
  constructor(look: string, label: string, ...children: readonly Child[]) {
    this.#bar = el("progress", { max: 1, "aria-label": label });
    this.node = el("p", { class: look, hidden: true }, this.#bar, this.#words, ...children);
  }

  show(progress: WorkProgress | null): void {
    this.node.hidden = progress === null;
    this.#bar.value = progress?.done ?? 0;
    setText(this.#words, progress ? `${Math.round(100 * progress.done)}\u00a0%, ${progress.what}` : "");
  }
}
