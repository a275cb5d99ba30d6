import { checkBox } from "../../widgets/checkBox.js";
import { ChoiceLine } from "../../widgets/choiceLine.js";
import { el, newId, setText } from "../../widgets/dom.js";
import { nameOf, reportOf, type View } from "../view.js";
import { mostTrials } from "./startTrial.js";
import type { TrialPlan } from "./trial.js";
import { borrowed, faultWords, setupWords } from "./trialWords.js";

/** The form that fixes a trial before it starts. */
export class TrialSetup {
  readonly node: HTMLFormElement;
  readonly #view: View;
  readonly #routings: ReadonlyMap<string, RoutingBox>;
  readonly #count: HTMLInputElement;
  readonly #explanation = el("p", { class: "hint" });
  readonly #fault = el("p", { class: "fault", role: "alert" });
  readonly #start = el("button", { type: "submit", class: "strong" }, "Start the trial");
  #kind: TrialPlan["kind"] = "tell-apart";

  constructor(view: View, onStart: (plan: TrialPlan) => void) {
    const id = newId("trials");
    this.#view = view;
    this.#routings = this.#routingBoxes();
    this.#count = el("input", { type: "number", id, min: 1, max: mostTrials, step: 1, value: 12 });
    this.#count.addEventListener("input", () => this.#explain());
    this.node = this.#form(id);
    this.node.addEventListener("submit", (event) => {
      event.preventDefault();
      this.#submit(onStart);
    });
    this.update();
  }

  update(): void {
    const { bench } = this.#view;
    for (const [id, { name, node, input }] of this.#routings) {
      setText(name, ` ${nameOf(this.#view, id)}`);
      node.hidden = !bench.player.choices.includes(id);
      if (node.hidden) input.checked = false;
    }
    this.#start.disabled = bench.player.lengthSeconds === 0 || bench.progress !== null;
    this.#explain();
  }

  #submit(onStart: (plan: TrialPlan) => void): void {
    const plan = this.#plan();
    const fault = faultWords(plan);
    setText(this.#fault, fault ?? "");
    if (fault === null) onStart(plan);
  }

  #plan(): TrialPlan {
    const chosen = [...this.#routings].filter(([, { input }]) => input.checked);
    return { kind: this.#kind, routings: chosen.map(([id]) => id), trials: this.#count.valueAsNumber };
  }

  #explain(): void {
    setText(this.#explanation, setupWords(this.#plan()));
  }

  /** What is heard and the reference are chosen from the start. */
  #routingBoxes(): ReadonlyMap<string, RoutingBox> {
    const { player } = this.#view.bench;
    const usual = [player.chosen, reportOf(this.#view).reference];
    const boxes = player.choices.map((id) => [id, routingBox(() => this.#explain())] as const);
    for (const [id, { input }] of boxes) input.checked = usual.includes(id);
    return new Map(boxes);
  }

  #questions(): HTMLElement {
    const line = new ChoiceLine("The question", questions, (kind) => {
      this.#kind = kind;
      this.#explain();
    });
    line.set(this.#kind);
    return line.node;
  }

  #form(countId: string): HTMLFormElement {
    const boxes = [...this.#routings.values()].map(({ node }) => node);
    return el(
      "form",
      { class: "trial-setup", novalidate: true },
      this.#questions(),
      el(
        "fieldset",
        { class: "which" },
        el("legend", {}, "Between which"),
        el("div", { class: "options" }, ...boxes),
      ),
      el("p", { class: "count" }, el("label", { for: countId }, "Number of trials"), this.#count),
      this.#explanation,
      this.#start,
      this.#fault,
      el("p", { class: "small" }, borrowed),
    );
  }
}

const questions = [
  ["tell-apart", "Can you tell them apart?"],
  ["prefer", "Which do you prefer?"],
] as const;

type RoutingBox = ReturnType<typeof routingBox>;

/** A check box whose words are written later. */
function routingBox(onChange: () => void) {
  const name = el("span", {});
  const { node, input } = checkBox("", onChange);
  node.append(name);
  return { node, input, name };
}
