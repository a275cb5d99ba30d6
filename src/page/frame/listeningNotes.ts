import type { Heard } from "../../words/replyWords.js";
import { type Listening, nameOf, type View } from "../panels/view.js";

/** Takes down what sounds. */
export class ListeningNotes implements Listening {
  readonly #heard = new Map<string, Heard>();
  readonly #ids = new Set<string>();
  readonly #onTrial: () => void;
  #trials: readonly string[] = [];

  /** @param onTrial  called when a trial came to its end */
  constructor(onTrial: () => void) {
    this.#onTrial = onTrial;
  }

  get heard(): readonly Heard[] {
    return [...this.#heard.values()];
  }
  get trials(): readonly string[] {
    return this.#trials;
  }
  knows(id: string): boolean {
    return this.#ids.has(id);
  }
  tried(words: readonly string[], ids: readonly string[]): void {
    this.#trials = [...this.#trials, ...words];
    for (const id of ids) this.#ids.add(id);
    this.#onTrial();
  }

  /** Looks at what sounds now. */
  note(view: View): void {
    const { player, takeName } = view.bench;
    if (!player.playing) return;
    const { chosen, matched, folded } = player;
    const heard = { take: takeName, label: nameOf(view, chosen), matched, folded };
    this.#heard.set(JSON.stringify(heard), heard);
    this.#ids.add(chosen);
  }
}
