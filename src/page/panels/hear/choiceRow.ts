import { priceInShort } from "../../../words/priceWords.js";
import { el, newId, setText } from "../../widgets/dom.js";
import { routingMark } from "../../widgets/routingMark.js";
import { swatch } from "../../widgets/swatch.js";
import { nothing } from "../../widgets/typeset.js";
import { choiceKey } from "../choiceKey.js";
import { nameOf, reportOf, routingOf, type View } from "../view.js";

/** The radio button of one choice, with its key, mark, name and what it costs. */
export class ChoiceRow {
  readonly node: HTMLLabelElement;
  readonly #view: View;
  readonly #id: string;
  readonly #input: HTMLInputElement;
  readonly #name = el("span", { class: "name" });
  readonly #isReference = el("span", { class: "reference" });
  readonly #price = el("span");

  constructor(view: View, id: string) {
    const { player } = view.bench;
    this.#view = view;
    this.#id = id;
    this.#input = el("input", { type: "radio", name: "routing", id: newId("choice"), value: id });
    this.#input.addEventListener("change", () => player.choose(id));
    const all = reportOf(view).routings.map((routing) => routing.id);
    const key = choiceKey(player.choices, id);
    this.node = el(
      "label",
      { class: "choice", for: this.#input.id },
      this.#input,
      key ? el("kbd", {}, key) : el("span", {}),
      swatch(routingMark(id, all)),
      el("span", { class: "names" }, this.#name, this.#isReference),
      el("span", { class: "price" }, el("span", { class: "visually-hidden" }, toBuy), this.#price),
    );
  }

  update(): void {
    const { player } = this.#view.bench;
    this.node.hidden = !player.choices.includes(this.#id);
    this.#input.checked = player.chosen === this.#id;
    setText(this.#name, nameOf(this.#view, this.#id));
    setText(this.#isReference, reportOf(this.#view).reference === this.#id ? " reference" : "");
    const build = routingOf(this.#view, this.#id)?.build;
    setText(this.#price, build ? priceInShort(build) : nothing);
  }
}

const toBuy = " to buy: ";
