import type { Bench } from "../../contract/bench.js";
import type { Player } from "../../contract/player.js";
import { button } from "../../widgets/button.js";
import { el, setText } from "../../widgets/dom.js";
import { Transport } from "../playing/transport.js";
import { volumeControl } from "../playing/volume.js";
import type { PagePart, Soloist } from "../view.js";
import { BlindSounds, type SoundName } from "./blindSounds.js";
import type { Trial } from "./trial.js";

/**
 * The trial while it runs. Nothing here is made from a routing: names, order, titles and values are the same whatever
 * stands behind them, and the ids go to the player alone.
 */
export class TrialRun implements Soloist {
  readonly node: HTMLElement;
  readonly #player: Player;
  readonly #trial: Trial;
  readonly #onEnd: () => void;
  readonly #names: readonly SoundName[];
  /** Those that were heard since the last answer. */
  readonly #heard = new Set<SoundName>();
  readonly #sounds: BlindSounds;
  readonly #answers: readonly HTMLButtonElement[];
  readonly #transport: PagePart;
  readonly #volume: PagePart;
  readonly #count = el("p", { class: "trial-count", "aria-live": "polite" });
  readonly #hint = el("p", { class: "hint" });

  constructor(bench: Bench, trial: Trial, onEnd: () => void) {
    this.#player = bench.player;
    this.#trial = trial;
    this.#onEnd = onEnd;
    this.#names = isPreference(trial) ? ["A", "B"] : ["A", "B", "X"];
    this.#sounds = new BlindSounds(this.#names, (name) => this.#hear(name));
    this.#answers = (["A", "B"] as const).map((name) =>
      button(answerWords(trial, name), () => this.#answer(name), "strong"),
    );
    this.#transport = new Transport(bench);
    this.#volume = volumeControl(bench.player);
    this.node = this.#drawn();
    this.#showCount();
    this.#hear("A");
  }

  /** By digit key: 1 is A, 2 is B, 3 is X. */
  chooseKey(digit: string): void {
    const name = this.#names[Number(digit) - 1];
    if (name) this.#hear(name);
  }

  update(): void {
    this.#transport.update("player");
    this.#volume.update("player");
  }

  #hear(name: SoundName): void {
    const id = this.#trial.sounds?.[name];
    if (!id) return;
    this.#player.playBlind(id);
    this.#heard.add(name);
    this.#sounds.show(name);
    this.#showMissing();
  }

  #answer(name: "A" | "B"): void {
    if (this.#heard.size < this.#names.length) return;
    this.#trial.answer(name);
    this.#heard.clear();
    if (this.#trial.sounds) this.#next();
    else this.#onEnd();
  }

  #next(): void {
    this.#showCount();
    this.#hear("A");
    this.#sounds.focus("A");
  }

  #showCount(): void {
    setText(this.#count, `Trial ${this.#trial.answered + 1} of ${this.#trial.plan.trials}`);
  }

  #showMissing(): void {
    const missing = this.#names.filter((name) => !this.#heard.has(name));
    for (const answer of this.#answers) answer.disabled = missing.length > 0;
    const words = `Listen to ${missing.join(" and ")} before you answer.`;
    setText(this.#hint, missing.length > 0 ? words : "Go back and forth as often as you like.");
  }

  #drawn(): HTMLElement {
    const question = isPreference(this.#trial) ? "Which do you prefer?" : "Which one is X?";
    return el(
      "section",
      { class: "panel trial-run", "aria-labelledby": "trial-heading" },
      el("h1", { id: "trial-heading" }, "Blind trial"),
      this.#count,
      this.#sounds.node,
      this.#transport.node,
      el("fieldset", { class: "answers" }, el("legend", {}, question), ...this.#answers),
      this.#hint,
      this.#volume.node,
      el("p", { class: "small" }, fairness),
    );
  }
}

const isPreference = ({ plan }: Trial): boolean => plan.kind === "prefer";

const answerWords = (trial: Trial, name: "A" | "B"): string =>
  isPreference(trial) ? `I prefer ${name}` : `X is ${name}`;

const fairness =
  "All sounds are matched in loudness within what is played, the loop where it is on, and every switch is the same: out, a pause, in. Figures wait until the end.";
