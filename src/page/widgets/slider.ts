import { el, newId, setText } from "./dom.js";
import { scrollsOverSlider } from "./swipe.js";

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

/** A native slider under its label, its value in words beside it and as `aria-valuetext`. */
export class Slider {
  readonly node: HTMLElement;
  readonly input: HTMLInputElement;
  readonly #options: SliderOptions;
  readonly #shown: HTMLOutputElement;
  #isDragged = false;

  constructor(options: SliderOptions) {
    const { label, name, bare, min, max, step } = options;
    this.#options = options;
    this.input = scrollsOverSlider(
      el("input", { type: "range", id: newId("slider"), min, max, step, "aria-label": name }),
    );
    this.#shown = el("output", { for: this.input.id });
    this.#listen();
    const heading = el("label", { for: this.input.id, class: bare ? "visually-hidden" : null }, label);
    this.node = el("div", { class: "slider" }, heading, bare ? null : this.#shown, this.input);
  }

  /** Does not move a slider that the person is dragging. */
  set(value: number): void {
    if (this.#isDragged) return;
    this.input.value = String(value);
    this.#write(value);
  }

  #write(value: number): void {
    const { words, spoken = words } = this.#options;
    setText(this.#shown, words(value));
    this.input.setAttribute("aria-valuetext", spoken(value));
  }

  #listen(): void {
    const { input } = this;
    input.addEventListener("pointerdown", () => {
      this.#isDragged = true;
    });
    for (const end of ["pointerup", "pointercancel", "change", "blur"]) {
      input.addEventListener(end, () => {
        this.#isDragged = false;
      });
    }
    input.addEventListener("input", () => {
      this.#write(input.valueAsNumber);
      this.#options.onInput(input.valueAsNumber);
    });
  }
}
