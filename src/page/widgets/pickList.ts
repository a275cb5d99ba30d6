import { el, fill, newId } from "./dom.js";

export type ListOption = readonly [value: string, words: string];

/** A list to choose one from, and the label that goes with it. */
export class PickList {
  readonly label: HTMLLabelElement;
  readonly list: HTMLSelectElement;

  constructor(idWord: string, words: string, onChoose: (value: string) => void = () => {}) {
    const id = newId(idWord);
    this.label = el("label", { for: id }, words);
    this.list = el("select", { id });
    this.list.addEventListener("change", () => onChoose(this.list.value));
  }

  get value(): string {
    return this.list.value;
  }
  set value(value: string) {
    this.list.value = value;
  }

  /** @param chosen  the one that is chosen from the start */
  setOptions(options: readonly ListOption[], chosen?: string): void {
    const elements = options.map(([value, words]) =>
      el("option", { value, selected: value === chosen }, words),
    );
    fill(this.list, ...elements);
  }
}
