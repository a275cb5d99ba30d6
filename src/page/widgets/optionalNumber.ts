import { el, newId, setText } from "./dom.js";

interface OptionalNumberOptions {
  readonly label: string;
  readonly hint: string;
  readonly unit: string;
  readonly min: number;
  readonly max: number;
}

/** A number that may be left out: an empty field says nothing. */
export class OptionalNumber {
  readonly node: HTMLElement;
  readonly #options: OptionalNumberOptions;
  readonly #input: HTMLInputElement;
  readonly #fault = el("p", { class: "fault", role: "alert" });

  constructor(options: OptionalNumberOptions) {
    const { label, hint, unit } = options;
    const id = newId("number");
    this.#options = options;
    this.#input = el("input", {
      type: "text",
      id,
      inputmode: "decimal",
      autocomplete: "off",
      class: "number",
    });
    this.#input.setAttribute("aria-describedby", `${id}-says`);
    this.#input.addEventListener("change", () => void this.read());
    this.node = el(
      "div",
      { class: "optional-number" },
      el("label", { for: id }, `${label}${unit ? `, ${unit}` : ""}`),
      this.#input,
      el("small", { id: `${id}-says` }, hint),
      this.#fault,
    );
  }

  /** @returns undefined where it is empty; null, and says so, where it does not fit */
  read(): number | undefined | null {
    const { label, min, max, unit } = this.#options;
    const typed = this.#input.value.trim().replace(",", ".");
    const value = typed === "" ? undefined : Number(typed);
    const fits = value === undefined || (value >= min && value <= max);
    this.#input.setAttribute("aria-invalid", String(!fits));
    const range = `from ${min} to ${max}${unit ? ` ${unit}` : ""}`;
    setText(
      this.#fault,
      fits ? "" : `"${this.#input.value}" is no ${label}: it goes ${range}. Or leave the field empty.`,
    );
    return fits ? value : null;
  }

  focus(): void {
    this.#input.focus();
  }
}
