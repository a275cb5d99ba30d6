import { el, setText } from "./dom.js";

/** The bar begins here, dBFS. */
const leastDbfs = -60;
/** Where peaks belong: between these, dBFS; common practice, no source. */
const goodDbfs = [-12, -3] as const;
const wordsEveryMs = 150;

/** A level in dBFS as a bar, in words, and with a light that says that it has clipped until it is cleared. */
export class LevelBar {
  readonly node: HTMLElement;
  readonly #fill = el("span", { class: "fill" });
  readonly #bar: HTMLElement;
  readonly #words = el("span", { class: "words" });
  readonly #clip = el("span", { class: "clip" });
  #toldAt = Number.NEGATIVE_INFINITY;

  constructor(name: string) {
    const zone = el("span", { class: "zone" });
    zone.style.left = `${share(goodDbfs[0])}%`;
    zone.style.right = `${100 - share(goodDbfs[1])}%`;
    this.#bar = el(
      "div",
      {
        class: "bar",
        role: "meter",
        "aria-label": name,
        "aria-valuemin": leastDbfs,
        "aria-valuemax": 0,
        "aria-valuenow": leastDbfs,
      },
      zone,
      this.#fill,
    );
    this.node = el(
      "div",
      { class: "level-bar" },
      el("span", { class: "name" }, name),
      this.#bar,
      this.#words,
      this.#clip,
    );
  }

  show(
    { peakDbfs, isClipped }: { readonly peakDbfs: number | null; readonly isClipped: boolean },
    words: string,
  ): void {
    const level = Math.max(leastDbfs, peakDbfs ?? leastDbfs);
    this.#fill.style.width = `${share(level)}%`;
    this.#clip.classList.toggle("lit", isClipped);
    setText(this.#clip, isClipped ? "clipped" : "not clipped");
    const now = performance.now();
    if (now - this.#toldAt < wordsEveryMs) return;
    this.#toldAt = now;
    setText(this.#words, words);
    this.#bar.setAttribute("aria-valuenow", level.toFixed(0));
    this.#bar.setAttribute(
      "aria-valuetext",
      `${level.toFixed(0)} dBFS, ${words}, ${isClipped ? "clipped" : "not clipped"}`,
    );
  }
}

const share = (db: number): number => (100 * (Math.min(0, db) - leastDbfs)) / -leastDbfs;
