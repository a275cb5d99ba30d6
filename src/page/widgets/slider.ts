import { el, newId, setText } from "./dom.js";

export interface SliderOptions {
  readonly label: string;
  /** What it is called when read out, where the label alone does not say it. */
  readonly name?: string;
  /** Label and value are read out only: they are seen elsewhere. */
  readonly bare?: boolean;
  readonly min: number;
  readonly max: number;
  readonly step: number;
  /** What is shown beside the slider, and read out. */
  readonly words: (value: number) => string;
  readonly spoken?: (value: number) => string;
  readonly onInput: (value: number) => void;
}
export interface Slider {
  readonly node: HTMLElement;
  readonly input: HTMLInputElement;
  /** Does not move a slider that the person is dragging. */
  set(value: number): void;
}

/** A native slider under its label, its value in words beside it and as `aria-valuetext`. */
export function slider(options: SliderOptions): Slider {
  const { label, name, bare, min, max, step, words, spoken = words, onInput } = options;
  const input = el("input", { type: "range", id: newId("slider"), min, max, step, "aria-label": name });
  const shown = el("output", { for: input.id });
  const write = (value: number) => {
    setText(shown, words(value));
    input.setAttribute("aria-valuetext", spoken(value));
  };
  let dragging = false;
  input.addEventListener("pointerdown", () => {
    dragging = true;
  });
  for (const end of ["pointerup", "pointercancel", "change", "blur"]) {
    input.addEventListener(end, () => {
      dragging = false;
    });
  }
  input.addEventListener("input", () => {
    write(input.valueAsNumber);
    onInput(input.valueAsNumber);
  });
  return {
    node: bare
      ? el("div", { class: "slider" }, el("label", { for: input.id, class: "visually-hidden" }, label), input)
      : el("div", { class: "slider" }, el("label", { for: input.id }, label), shown, input),
    input,
    set(value) {
      if (dragging) return;
      input.value = String(value);
      write(value);
    },
  };
}

/** A group of radio buttons in one line. */
export function choiceLine<T extends string>(
  legend: string,
  choices: readonly (readonly [value: T, words: string])[],
  onChoose: (value: T) => void,
): { readonly node: HTMLFieldSetElement; set(value: T): void } {
  const name = newId("line");
  const inputs = choices.map(([value, words]) => {
    const input = el("input", { type: "radio", name, value });
    input.addEventListener("change", () => onChoose(value));
    return { value, input, node: el("label", {}, input, ` ${words}`) };
  });
  return {
    node: el("fieldset", { class: "line" }, el("legend", {}, legend), ...inputs.map(({ node }) => node)),
    set(chosen) {
      for (const { value, input } of inputs) input.checked = value === chosen;
    },
  };
}

/** A check box before its words. */
export function checkBox(
  words: string,
  onChange: (on: boolean) => void,
): { readonly node: HTMLElement; readonly input: HTMLInputElement } {
  const input = el("input", { type: "checkbox" });
  input.addEventListener("change", () => onChange(input.checked));
  return { node: el("label", { class: "check" }, input, ` ${words}`), input };
}
