import { el, newId } from "./dom.js";

/** A group of radio buttons in one line. */
export class ChoiceLine<T extends string> {
  readonly node: HTMLFieldSetElement;
  readonly #inputs: ReadonlyMap<T, HTMLInputElement>;

  constructor(
    legend: string,
    choices: readonly (readonly [value: T, words: string])[],
    onChoose: (value: T) => void,
  ) {
    const name = newId("line");
    const inputs = new Map(choices.map(([value]) => [value, el("input", { type: "radio", name, value })]));
    for (const [value, input] of inputs) input.addEventListener("change", () => onChoose(value));
    this.#inputs = inputs;
    const labels = choices.map(([value, words]) => el("label", {}, inputs.get(value), ` ${words}`));
    this.node = el("fieldset", { class: "line" }, el("legend", {}, legend), ...labels);
  }

  set(chosen: T): void {
    for (const [value, input] of this.#inputs) input.checked = value === chosen;
  }
}
