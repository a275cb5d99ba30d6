import type { BenchChange } from "../../contract/bench.js";
import { el, fill } from "../../widgets/dom.js";
import type { Panel, View } from "../view.js";
import { comeBackTo, runTrial } from "./runTrial.js";
import type { TrialResult } from "./trial.js";
import { trialInWords } from "./trialInWords.js";
import { trialResult } from "./trialResult.js";
import { TrialSetup } from "./trialSetup.js";

/** A blind trial: set up, run with the rest of the page put away, and told. */
export class TrialPanel implements Panel {
  readonly children: readonly HTMLElement[];
  readonly #view: View;
  readonly #setup: TrialSetup;
  readonly #body: HTMLElement;

  constructor(view: View) {
    this.#view = view;
    this.#setup = new TrialSetup(view, (plan) => runTrial(view, plan, (result) => this.#end(result)));
    this.#body = el("div", {}, this.#setup.node);
    this.children = [el("p", { class: "lead" }, lead), this.#body];
  }

  update(change: BenchChange): void {
    if (change !== "fault") this.#setup.update();
  }

  #end(result: TrialResult | null): void {
    if (result) {
      const again = () => this.#again();
      fill(this.#body, trialResult(this.#view, result, again));
      const ids = result.answers.flatMap(({ A, B }) => [A, B]);
      this.#view.listening.tried(trialInWords(this.#view, result), ids);
    }
    comeBackTo(this.#body);
  }

  #again(): void {
    this.#setup.update();
    fill(this.#body, this.#setup.node);
    this.#setup.node.querySelector("input")?.focus();
  }
}

const lead = "Whether you hear a difference, or like one better, when you do not know which is which.";
