import type { Soloist, SoloStage } from "../panels/view.js";
import { el, fill } from "../widgets/dom.js";
import type { PanelPlace } from "./panels.js";

/** The main part of the page: all panels, or a soloist alone. */
export class MainStage implements SoloStage {
  readonly node = el("main", { id: "main" });
  readonly #root: HTMLElement;
  readonly #panels = el("div", { class: "bench" });
  readonly #onReturn: () => void;
  #soloist: Soloist | null = null;

  /** @param onReturn  called when the panels are back, which have missed all changes meanwhile */
  constructor(root: HTMLElement, onReturn: () => void) {
    this.#root = root;
    this.#onReturn = onReturn;
  }

  get soloist(): Soloist | null {
    return this.#soloist;
  }

  /** @param end  below all panels */
  setPanels(panels: readonly PanelPlace[], end: HTMLElement): void {
    const nodes = (place: PanelPlace["place"]) =>
      panels.filter((panel) => panel.place === place).map(({ node }) => node);
    fill(
      this.#panels,
      ...nodes("first"),
      ...nodes("beside"),
      el("div", { class: "rest" }, ...nodes("rest"), end),
    );
    fill(this.node, this.#panels);
  }

  enter(soloist: Soloist): void {
    this.#soloist = soloist;
    this.#root.classList.add("in-trial");
    fill(this.node, soloist.node);
    scrollTo(0, 0);
  }

  leave(): void {
    this.#soloist = null;
    this.#root.classList.remove("in-trial");
    fill(this.node, this.#panels);
    this.#onReturn();
  }
}
