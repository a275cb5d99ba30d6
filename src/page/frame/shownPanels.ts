import type { PagePart, View } from "../panels/view.js";
import { el } from "../widgets/dom.js";
import { extentLink } from "./extentLink.js";
import { ExtentSwitch } from "./extentSwitch.js";
import { pageHead } from "./pageHead.js";
import { type PanelPlace, panelPlaces } from "./panels.js";

/** The panels of the page: those of the player's view, or all of the bench, and the way from one to the other. */
export class ShownPanels {
  readonly places: readonly PanelPlace[] = panelPlaces();
  readonly head: PagePart;
  /** Below the panels of the player's view: the way to all else. */
  readonly end: HTMLElement;
  readonly #view: View;
  readonly #extents: ExtentSwitch;
  readonly #onward: ReturnType<typeof extentLink>;

  constructor(view: View) {
    const extentOf = (anchor: string) => this.places.find((place) => place.anchor === anchor)?.extent ?? null;
    this.#view = view;
    this.#extents = new ExtentSwitch(view.data.opensOn, extentOf, () => this.#switched());
    this.head = pageHead(view, this.places, this.#extents);
    this.#onward = extentLink(this.#extents);
    this.end = el("p", { class: "onward in-short" }, this.#onward.node);
  }

  /** The rig has become another. */
  renew(): void {
    for (const place of this.places) place.renew();
  }

  show(): void {
    const { now } = this.#extents;
    this.#view.root.dataset.extent = now;
    for (const place of this.places) place.show(this.#view, now);
    this.head.update("shape");
    this.#onward.show(now);
  }

  /** What takes files in, and tells what is wrong with them, is on the bench. */
  receive(file: File): void {
    this.#extents.show("everything");
    this.places.some((place) => place.receive(file));
  }

  /** What was followed may be gone: the way back has the focus then. */
  #switched(): void {
    this.show();
    this.#view.say(
      this.#extents.now === "short" ? "The player\u2019s view is shown." : "Everything is shown.",
    );
    scrollTo({ top: 0, behavior: "instant" });
    const { activeElement } = document;
    const isLost = activeElement === document.body || activeElement?.getClientRects().length === 0;
    if (isLost) this.head.node.querySelector<HTMLElement>(".extent")?.focus({ preventScroll: true });
  }
}
