import type { Extent } from "../contract/pageData.js";

/**
 * How much of the page is shown: by its address, else as it was left, else as the page was made to open. Going back in the
 * browser goes back here too.
 */
export class ExtentSwitch {
  readonly #extentOf: (anchor: string) => Extent | null;
  readonly #onSwitch: (extent: Extent) => void;
  /** What is shown at the bare address. */
  readonly #bare: Extent;
  #now: Extent;

  /**
   * @param opensOn   what the page was made for
   * @param extentOf  where the part of an anchor is shown; null where that is everywhere, or there is no such part
   */
  constructor(
    opensOn: Extent,
    extentOf: (anchor: string) => Extent | null,
    onSwitch: (extent: Extent) => void,
  ) {
    this.#extentOf = extentOf;
    this.#onSwitch = onSwitch;
    this.#bare = left() ?? opensOn;
    const anchor = location.hash.slice(1);
    this.#now = isExtent(anchor) ? anchor : (extentOf(anchor) ?? this.#bare);
    addEventListener("hashchange", () => this.#follow());
  }

  get now(): Extent {
    return this.#now;
  }

  /** Shows as much from now on, and when the page is opened again. */
  keep(extent: Extent): void {
    attempt((store) => store.setItem(keptAs(), extent));
    this.show(extent);
  }

  show(extent: Extent): void {
    if (extent === this.#now) return;
    this.#now = extent;
    this.#onSwitch(extent);
  }

  /** The address is another: of an extent, of the bare page, or of a part. */
  #follow(): void {
    const anchor = location.hash.slice(1);
    if (isExtent(anchor)) this.keep(anchor);
    else if (anchor === "") this.keep(this.#bare);
    else {
      this.show(this.#extentOf(anchor) ?? this.#now);
      document.getElementById(anchor)?.scrollIntoView();
    }
  }
}

const isExtent = (word: unknown): word is Extent => word === "short" || word === "everything";

/** As it was left; null where it was not, or the browser keeps nothing of a page from disk. */
function left(): Extent | null {
  const word = attempt((store) => store.getItem(keptAs()));
  return isExtent(word) ? word : null;
}

const keptAs = (): string => `splitsum extent ${location.pathname}`;

function attempt<T>(act: (store: Storage) => T): T | null {
  try {
    return act(localStorage);
  } catch {
    return null;
  }
}
