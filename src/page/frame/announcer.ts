import type { BenchChange } from "../contract/bench.js";
import { nameOf, type View } from "../panels/view.js";

/** Says once what a person who does not see the page should know. In a trial, only whether it plays. */
export class Announcer {
  readonly #view: View;
  #said = "";

  constructor(view: View) {
    this.#view = view;
  }

  announce(change: BenchChange): void {
    const words = wordsFor(this.#view, change);
    if (words === "" || words === this.#said) return;
    this.#said = words;
    this.#view.say(words);
  }
}

function wordsFor(view: View, change: BenchChange): string {
  const { player, progress, fault } = view.bench;
  switch (change) {
    case "player":
      return `${player.playing ? "Playing" : "Paused"}${view.stage.soloist ? "" : `: ${nameOf(view, player.chosen)}`}`;
    case "progress":
      return progress ? "Rendering." : "The figures are up to date.";
    case "fault":
      return fault ?? "";
    default:
      return "";
  }
}
