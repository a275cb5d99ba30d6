import { listAt, valueAt } from "../../../rig/file/dataAt.js";
import { withoutPedal } from "../../../rig/file/pedalEdits.js";
import type { RigDesk } from "../../contract/rigDesk.js";
import { el, setText } from "../../widgets/dom.js";
import type { RigField, RigPart } from "../../widgets/form/rigFields.js";
import type { View } from "../view.js";
import { pedalAdder } from "./pedalAdder.js";
import { PedalRow } from "./pedalRow.js";
import { rolesOf, roleWords, splitWords } from "./roles.js";

/** The pedals in the order of the signal: a row each, which goes where its pedal goes. */
export class Chain implements RigPart {
  readonly node: HTMLElement;
  readonly #view: View;
  readonly #desk: RigDesk;
  readonly #list = el("ol", { class: "chain" });
  readonly #split = el("p", { class: "split" });
  readonly #empty = el(
    "p",
    { class: "hint" },
    "No pedal yet: add the first one, in the order of the signal.",
  );
  readonly #adder;
  #rows: PedalRow[] = [];

  constructor(view: View) {
    this.#view = view;
    this.#desk = view.bench.desk;
    this.#adder = pedalAdder(this.#desk, (at) => this.#rows[at]?.focusFirst());
    this.node = el("div", { class: "chain-box" }, this.#split, this.#list, this.#empty, this.#adder.node);
  }

  get fields(): readonly RigField[] {
    return this.#rows.flatMap(({ fields }) => fields);
  }

  update(): void {
    const { data } = this.#desk;
    this.#place(listAt(data, ["pedals"]).map((pedal) => valueAt(pedal, ["name"])));
    const roles = rolesOf(data);
    this.#rows.forEach((row, n) => {
      row.update(roles[n], this.#rows.length);
    });
    setText(this.#split, splitWords(data));
    this.#empty.hidden = this.#rows.length > 0;
  }

  /** A row for each pedal: the one that had its name, else one that is left over, else a new one. */
  #place(names: readonly unknown[]): void {
    const left = [...this.#rows];
    const taken = names.map((name) => {
      const at = left.findIndex((row) => row.name === name);
      return at < 0 ? null : left.splice(at, 1)[0];
    });
    this.#rows = taken.map((row, n) => row ?? left.shift() ?? this.#newRow(n));
    for (const { node } of left) node.remove();
    const focused = document.activeElement;
    this.#rows.forEach((row, n) => {
      row.place = n;
      const there = this.#list.children[n] ?? null;
      if (there !== row.node) this.#list.insertBefore(row.node, there);
    });
    if (focused instanceof HTMLElement && focused !== document.activeElement && focused.isConnected)
      focused.focus();
  }

  #newRow(place: number): PedalRow {
    return new PedalRow(this.#view, place, {
      list: this.#list,
      move: (row, to) => this.#move(row, to),
      takeOut: (row) => this.#takeOut(row),
    });
  }

  #move(row: PedalRow, to: number): void {
    if (to < 0 || to >= this.#rows.length || to === row.place) return;
    const name = row.owner();
    this.#desk.edit(`the place of ${name}`, [{ move: ["pedals"], from: row.place, to }]);
    const role = rolesOf(this.#desk.data)[to];
    this.#view.say(
      `${name} is number ${to + 1} of ${this.#rows.length}${role ? `: ${roleWords[role]}` : ""}.`,
    );
  }

  /** The focus goes to what stands there then. */
  #takeOut(row: PedalRow): void {
    const { place } = row;
    const name = row.owner();
    this.#desk.edit(`taking ${name} out`, withoutPedal(this.#desk.data, place));
    const next = this.#rows[Math.min(place, this.#rows.length - 1)];
    if (next) next.focusFirst();
    else this.#adder.focus();
    this.#view.say(`${name} is out. Undo brings it back.`);
  }
}
