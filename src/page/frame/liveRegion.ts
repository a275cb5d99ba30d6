import { el, setText } from "../widgets/dom.js";

/** A polite live region: the last sentence, said once. */
export class LiveRegion {
  readonly node = el("p", { class: "visually-hidden", role: "status", "aria-live": "polite" });
  #waiting: ReturnType<typeof setTimeout> | undefined;

  say(sentence: string): void {
    clearTimeout(this.#waiting);
    setText(this.node, "");
    this.#waiting = setTimeout(() => setText(this.node, sentence), 60);
  }
}
