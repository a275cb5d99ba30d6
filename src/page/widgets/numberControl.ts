import type { NumberSetting } from "../../sound/dsp/kernel.js";
import { el, newId, setText } from "./dom.js";
import { type Control, type ControlNames, settingLabel, spokenNames } from "./settingLabel.js";
import { fromSlider, sliderSteps, toSlider } from "./sliderScale.js";
import { scrollsOverSlider } from "./swipe.js";

type NumberBounds = Omit<NumberSetting, "default">;

/** A number with bounds: a native slider, on a log scale where the table says so, and a field to type into. */
export class NumberControl implements Control<number> {
  readonly node: HTMLElement;
  readonly #bounds: NumberBounds;
  readonly #names: ControlNames;
  readonly #onChange: (value: number) => void;
  readonly #range: HTMLInputElement;
  readonly #field: HTMLInputElement;
  readonly #fault = el("p", { class: "fault", role: "alert" });
  #value: number;

  constructor(bounds: NumberBounds, names: ControlNames, onChange: (value: number) => void) {
    const id = newId("setting");
    this.#bounds = bounds;
    this.#names = names;
    this.#onChange = onChange;
    this.#value = bounds.min;
    this.#range = rangeOf(bounds, names);
    this.#field = fieldOf(id, bounds, names);
    this.#range.addEventListener("input", () => this.#slide());
    this.#field.addEventListener("change", () => this.#type());
    this.#field.addEventListener("blur", () => this.#tidy());
    const unit = el("span", { class: "unit", "aria-hidden": true }, names.unit);
    this.node = el(
      "div",
      { class: "setting" },
      settingLabel(id, names),
      this.#range,
      el("span", { class: "entry" }, this.#field, unit),
      this.#fault,
    );
  }

  set(value: number): void {
    this.#value = value;
    this.#range.value = String(toSlider(value, this.#bounds));
    this.#range.setAttribute("aria-valuetext", `${brief(value)} ${this.#names.unit}`.trim());
    if (document.activeElement !== this.#field) this.#field.value = brief(value);
  }

  #slide(): void {
    setText(this.#fault, "");
    this.#take(fromSlider(this.#range.valueAsNumber, this.#bounds));
  }

  #type(): void {
    const typed = this.#field.valueAsNumber;
    const fits = isWithin(typed, this.#bounds);
    this.#field.setAttribute("aria-invalid", String(!fits));
    setText(this.#fault, fits ? "" : outOfRange(this.#names, this.#bounds));
    if (fits) this.#take(typed);
  }

  #take(value: number): void {
    this.set(value);
    this.#onChange(value);
  }

  /** What does not fit gives way to what holds. */
  #tidy(): void {
    this.#field.value = brief(this.#value);
    this.#field.removeAttribute("aria-invalid");
  }
}

function rangeOf({ min, max, whole }: NumberBounds, { name, owner }: ControlNames): HTMLInputElement {
  const step = whole ? sliderSteps / (max - min) : 1;
  return scrollsOverSlider(
    el("input", { type: "range", min: 0, max: sliderSteps, step, "aria-label": `${owner}, ${name}` }),
  );
}

function fieldOf(id: string, { min, max, whole }: NumberBounds, names: ControlNames): HTMLInputElement {
  const numbers = { min, max, step: whole ? 1 : "any", inputmode: "decimal" };
  return el("input", { type: "number", id, ...numbers, ...spokenNames(id, names, names.unit) });
}

const isWithin = (value: number, { min, max, whole }: NumberBounds): boolean =>
  value >= min && value <= max && (!whole || Number.isInteger(value));

function outOfRange({ name, unit }: ControlNames, { min, max, whole }: NumberBounds): string {
  return `The ${name} goes from ${min} to ${max}${unit ? ` ${unit}` : ""}${whole ? ", whole numbers only" : ""}.`;
}

const brief = (value: number): string => String(Number(value.toPrecision(6)));
