import type { BenchChange } from "../../contract/bench.js";
import { button } from "../../widgets/button.js";
import { el, fill, setText } from "../../widgets/dom.js";
import { type ListOption, PickList } from "../../widgets/pickList.js";
import { choiceOrder } from "../choiceOrder.js";
import { nameOf, type Panel, reportOf, type View } from "../view.js";
import { comeBackTo, runTrial } from "./runTrial.js";
import type { TrialResult } from "./trial.js";
import { trialInWords } from "./trialInWords.js";
import { preferenceMeaning } from "./trialWords.js";

/** Nine of ten tell a preference from chance (exact, 95 %); more tire who does it once. Common practice, no source. */
const rounds = 10;

/** A blind trial between two choices, as whoever plays takes it: which do you like, not knowing which is which? */
export class ShortTrial implements Panel {
  readonly children: Panel["children"];
  readonly #view: View;
  readonly #between = new PickList("between", "Between");
  readonly #and = new PickList("and", "and", () => this.#check());
  readonly #start = button(`Start: ${rounds} rounds`, () => this.#run(), "strong");
  readonly #begin = el("p", {}, this.#start);
  readonly #fault = el("p", { class: "fault", role: "alert" });
  readonly #result = el("div", { class: "trial-result", hidden: true });
  #written = "";

  constructor(view: View) {
    this.#view = view;
    const { label: first, list: firstList } = this.#between;
    const { label: second, list: secondList } = this.#and;
    firstList.addEventListener("change", () => this.#check());
    this.children = [
      el("p", {}, lead),
      el("div", { class: "pair" }, first, firstList, second, secondList),
      this.#begin,
      this.#fault,
      this.#result,
    ];
    this.#write();
    this.update("player");
  }

  update(change: BenchChange): void {
    const { player, progress } = this.#view.bench;
    if (change === "report" || change === "player") this.#write();
    this.#start.disabled = player.lengthSeconds === 0 || progress !== null;
  }

  /** The choices by name; those that were chosen stay, where they are still there. */
  #write(): void {
    const { first, rest } = choiceOrder(this.#view);
    const options = [...first, ...rest].map((id): ListOption => [id, nameOf(this.#view, id)]);
    const now = JSON.stringify(options);
    if (now === this.#written) return;
    this.#written = now;
    const ids = options.map(([id]) => id);
    const [one, other] = [this.#between.value, this.#and.value];
    const isKept = one !== other && ids.includes(one) && ids.includes(other);
    const [usual, against] = isKept ? [one, other] : this.#usualPair(first);
    this.#between.setOptions(options, usual);
    this.#and.setOptions(options, against);
  }

  /** The answer, and what is heard to differ from it. */
  #usualPair([one, ...others]: readonly string[]): readonly string[] {
    const { next } = reportOf(this.#view).answer;
    const other = others.find((id) => !(next?.soundsAlike && id === next.id));
    return [one, other ?? others[0]];
  }

  #check(): boolean {
    const isPair = this.#between.value !== this.#and.value;
    setText(this.#fault, isPair ? "" : "Choose two that differ.");
    return isPair;
  }

  #run(): void {
    if (!this.#check()) return;
    const routings = [this.#between.value, this.#and.value];
    runTrial(this.#view, { kind: "prefer", routings, trials: rounds }, (result) => this.#end(result));
  }

  #end(result: TrialResult | null): void {
    if (result) {
      const words = trialInWords(this.#view, result);
      this.#view.listening.tried(words, [this.#between.value, this.#and.value]);
      this.#result.hidden = false;
      fill(
        this.#result,
        el("h3", { tabindex: -1 }, "Result"),
        ...words.map((line) => el("p", { class: "verdict" }, line)),
        el("p", { class: "small" }, preferenceMeaning),
      );
    }
    comeBackTo(result ? this.#result : this.#begin);
  }
}

const lead = `Not knowing which is which: A and B are these two, hidden anew in each of ${rounds} rounds and played at one loudness. You say which you like better.`;
