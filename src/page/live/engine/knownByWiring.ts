import type { NamedWiring } from "./engineJobs.js";

interface Known<T> {
  /** The wiring, and the circumstances, for which it is true. */
  readonly key: string;
  readonly value: T;
}

/** What is known of wirings, by id, for as long as they are as they were when it was found. */
export class KnownByWiring<T> {
  readonly #known = new Map<string, Known<T>>();

  /**
   * Those of which nothing is known as they are now.
   * @param circumstances  besides the wiring, what it depends on
   */
  stale(wirings: readonly NamedWiring[], circumstances = ""): readonly NamedWiring[] {
    return wirings.filter((wiring) => this.#known.get(wiring.id)?.key !== keyOf(wiring, circumstances));
  }

  learn(wiring: NamedWiring, value: T, circumstances = ""): void {
    this.#known.set(wiring.id, { key: keyOf(wiring, circumstances), value });
  }

  /** @throws Error when nothing was ever learnt of it */
  of({ id }: Pick<NamedWiring, "id">): T {
    const known = this.#known.get(id);
    if (!known) throw new Error(`nothing is known of "${id}"`);
    return known.value;
  }

  forget(): void {
    this.#known.clear();
  }
}

const keyOf = ({ wiring }: NamedWiring, circumstances: string): string =>
  `${circumstances} ${JSON.stringify(wiring)}`;
