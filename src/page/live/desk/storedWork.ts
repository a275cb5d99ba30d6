import type { RigText } from "../../../rig/file/rigText.js";

/** Where the browser keeps words for a page; it may refuse, or not be there at all. */
type Store = Pick<Storage, "getItem" | "setItem" | "removeItem">;

/** Work on a rig that the browser keeps, so that it outlives a reload: of this page, as it came. */
export class StoredWork {
  readonly #store: Store | null;
  readonly #key: string;
  readonly #came: string;

  /** @param came  the rig file as it came with the page: work on another is not given back */
  constructor(store: Store | null, address: string, came: string) {
    this.#store = store;
    this.#key = `splitsum ${address}`;
    this.#came = came;
  }

  /** What was left; null where there is none, or the browser keeps nothing. */
  read(): RigText | null {
    const kept = this.#try((store) => store.getItem(this.#key));
    if (typeof kept !== "string") return null;
    try {
      const { came, file, text } = JSON.parse(kept);
      return came === this.#came && typeof text === "string" ? { file: String(file), text } : null;
    } catch {
      return null;
    }
  }

  /** @returns whether it is kept */
  write({ file, text }: RigText): boolean {
    const isAsItCame = text === this.#came;
    const done = this.#try((store) => {
      if (isAsItCame) store.removeItem(this.#key);
      else store.setItem(this.#key, JSON.stringify({ came: this.#came, file, text }));
      return true;
    });
    return done === true;
  }

  #try<T>(act: (store: Store) => T): T | null {
    try {
      return this.#store ? act(this.#store) : null;
    } catch {
      return null;
    }
  }
}

/** The store of this page; null where the browser gives none to a page from disk. */
export function pageStore(): Store | null {
  try {
    return window.localStorage;
  } catch {
    return null;
  }
}
