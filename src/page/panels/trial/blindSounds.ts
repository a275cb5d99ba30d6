import { el } from "../../widgets/dom.js";

export type SoundName = "A" | "B" | "X";

/** The sounds of a trial as radio buttons, which tell nothing of what stands behind them. */
export class BlindSounds {
  readonly node: HTMLElement;
  readonly #inputs: ReadonlyMap<SoundName, HTMLInputElement>;

  constructor(names: readonly SoundName[], onChoose: (name: SoundName) => void) {
    this.#inputs = new Map(
      names.map((value) => [value, el("input", { type: "radio", name: "blind", value })]),
    );
    for (const [name, input] of this.#inputs) input.addEventListener("change", () => onChoose(name));
    const labels = names.map((name, n) =>
      el(
        "label",
        { class: "choice" },
        this.#inputs.get(name),
        el("kbd", {}, String(n + 1)),
        el("span", {}, name),
      ),
    );
    this.node = el("fieldset", { class: "sounds" }, el("legend", {}, "Heard now"), ...labels);
  }

  /** Marks the one that is heard; focus goes along where it was on another. */
  show(heard: SoundName): void {
    const hadFocus = this.node.contains(document.activeElement);
    for (const [name, input] of this.#inputs) input.checked = name === heard;
    if (hadFocus) this.focus(heard);
  }

  focus(name: SoundName): void {
    this.#inputs.get(name)?.focus();
  }
}
