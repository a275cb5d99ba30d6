import { valueAt } from "../../../rig/file/dataAt.js";
import { pedalTwice, renamedPedal } from "../../../rig/file/pedalEdits.js";
import type { RigDesk } from "../../contract/rigDesk.js";
import { button } from "../../widgets/button.js";
import { el, setText } from "../../widgets/dom.js";
import { fold, together } from "../../widgets/form/fold.js";
import { choiceField, type RigField, type RigPart, textField } from "../../widgets/form/rigFields.js";
import type { View } from "../view.js";
import { dragBy } from "./chainDrag.js";
import { pedalFacts } from "./pedalFacts.js";
import { modelChoices, modelEdits } from "./pedalKinds.js";
import { jackWords } from "./rigWords.js";
import { type Role, roleWords } from "./roles.js";
import { settingsPart } from "./settingsPart.js";
import { soundFileField } from "./soundFileField.js";
import { unitFold } from "./unitFold.js";

/** What a row asks of the chain. */
interface InChain {
  readonly list: HTMLElement;
  readonly move: (row: PedalRow, to: number) => void;
  readonly takeOut: (row: PedalRow) => void;
}

/** One pedal of the chain: what it is, its jacks, what the split makes of it, and where it may go. */
export class PedalRow {
  readonly node: HTMLElement;
  /** Its place in the chain, from 0. */
  place: number;
  readonly #desk: RigDesk;
  readonly #parts: readonly RigPart[];
  readonly #name: RigField;
  readonly #role = el("span", { class: "role" });
  readonly #actions: readonly Action[];
  readonly #chain: InChain;
  #lastName: unknown;

  constructor(view: View, place: number, chain: InChain) {
    const { desk } = view.bench;
    this.#desk = desk;
    this.#chain = chain;
    this.place = place;
    const path = () => ["pedals", this.place];
    const at =
      (...keys: string[]) =>
      () => [...path(), ...keys];
    const owner = () => this.owner();
    const rename = (name: string) =>
      desk.edit(
        `the name of ${this.owner()}`,
        renamedPedal(desk.data, this.place, name, desk.wholeNames[this.place]),
      );
    this.#name = textField(desk, { path: at("name"), label: "name", owner }, rename);
    const shown = [
      this.#name,
      choiceField(desk, { path: at("model"), label: "kind", owner }, modelChoices, {
        onSet: (model) => desk.edit(`${this.owner()}, kind`, modelEdits(desk.data, path(), model)),
      }),
      choiceField(desk, { path: at("jacks"), label: "jacks", owner }, jackWords),
    ];
    this.#parts = [
      together("shown", ...shown),
      soundFileField(view, path, owner),
      unitFold(view, path, owner),
      fold(
        "Its settings",
        "",
        settingsPart(desk, { path: at("settings"), model: () => valueAt(desk.data, at("model")()), owner }),
      ),
      pedalFacts(desk, path, owner),
    ];
    const grip = action(
      "Drag",
      "to another place in the chain, or hold Alt and press an arrow key",
      () => {},
    );
    grip.node.classList.add("grip");
    this.#actions = [grip, ...this.#moves(view)];
    this.node = el(
      "li",
      { class: "pedal-row" },
      el("p", { class: "row-head" }, this.#role, grip.node),
      ...this.#parts.map(({ node }) => node),
      el("div", { class: "row-actions" }, ...this.#actions.slice(1).map(({ node }) => node)),
    );
    dragBy(grip.node, { list: chain.list, row: this.node, onDrop: (to) => chain.move(this, to) });
    this.node.addEventListener("keydown", (event) => this.#byKey(event));
  }

  get fields(): readonly RigField[] {
    return this.#parts.flatMap(({ fields }) => fields);
  }
  /** As the file had it last. */
  get name(): unknown {
    return this.#lastName;
  }
  /** What it is called in what is said of it. */
  owner(): string {
    return String(valueAt(this.#desk.data, ["pedals", this.place, "name"]) || `Pedal ${this.place + 1}`);
  }

  focusFirst(): void {
    this.#name.focus();
  }

  /** @param count  pedals in the chain */
  update(role: Role | undefined, count: number): void {
    this.#lastName = valueAt(this.#desk.data, ["pedals", this.place, "name"]);
    for (const part of this.#parts) part.update();
    setText(this.#role, role ? roleWords[role] : "");
    this.node.dataset.role = role ?? "";
    const [grip, earlier, later] = this.#actions;
    grip.node.disabled = count < 2;
    rest(earlier.node, this.place === 0, later.node);
    rest(later.node, this.place === count - 1, earlier.node);
    for (const { look, does, node } of this.#actions)
      node.setAttribute("aria-label", `${look} ${does}: ${this.owner()}`);
  }

  #moves(view: View): readonly Action[] {
    const desk = this.#desk;
    return [
      action("Earlier", "in the chain", () => this.#chain.move(this, this.place - 1)),
      action("Later", "in the chain", () => this.#chain.move(this, this.place + 1)),
      action("Twice", "the same once more in the chain", () => {
        desk.edit(`${this.owner()} twice`, pedalTwice(desk.data, this.place));
        view.say(`${this.owner()} stands twice in the chain.`);
      }),
      action("Take out", "of the chain", () => this.#chain.takeOut(this)),
    ];
  }

  /** What is being typed holds first, since the field leaves its place for a moment. */
  #byKey(event: KeyboardEvent): void {
    const by = event.key === "ArrowUp" ? -1 : event.key === "ArrowDown" ? 1 : 0;
    if (!event.altKey || event.ctrlKey || event.metaKey || by === 0) return;
    event.preventDefault();
    const focused = document.activeElement;
    if (focused instanceof HTMLElement) {
      focused.blur();
      focused.focus();
    }
    this.#chain.move(this, this.place + by);
  }
}

interface Action {
  readonly look: string;
  readonly does: string;
  readonly node: HTMLButtonElement;
}

const action = (look: string, does: string, act: () => void): Action => ({
  look,
  does,
  node: button(look, act, "quiet"),
});

/** A button that can do nothing now hands the focus on. */
function rest(node: HTMLButtonElement, isResting: boolean, next: HTMLButtonElement): void {
  if (isResting && document.activeElement === node) {
    next.disabled = false;
    next.focus();
  }
  node.disabled = isResting;
}
