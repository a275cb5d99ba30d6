import { listAt, valueAt } from "../../../rig/file/dataAt.js";
import { boxIds, wiringPath, withoutBox } from "../../../rig/file/wiringEdits.js";
import type { Path } from "../../../rig/file/yaml.js";
import { button } from "../../widgets/button.js";
import { el, setText } from "../../widgets/dom.js";
import { fieldsAt } from "../../widgets/form/fieldsAt.js";
import { grid, together } from "../../widgets/form/fold.js";
import { choiceField, type RigField, type RigPart, samePath, set } from "../../widgets/form/rigFields.js";
import { boxAdder } from "./boxAdder.js";
import type { OpenDrawing } from "./openDrawing.js";

/** The boxes of the drawing, with what is set on each. */
export class BoxRows {
  readonly node: HTMLElement;
  readonly #drawing: OpenDrawing;
  readonly #list = el("ul", { class: "box-rows" });
  readonly #hint = el(
    "p",
    { class: "hint" },
    "Fully wet: for a unit in a branch beside the dry sound. Pan goes from -1, left, to 1, right.",
  );
  readonly #adder;
  #rows: readonly BoxRow[] = [];

  constructor(drawing: OpenDrawing) {
    this.#drawing = drawing;
    this.#adder = boxAdder(drawing, (id) => this.focus(id));
    this.node = el(
      "div",
      { class: "draw-boxes" },
      el("h3", {}, "Boxes"),
      this.#hint,
      this.#list,
      this.#adder.node,
    );
  }

  update(): void {
    const { id, view } = this.#drawing;
    const { data } = view.bench.desk;
    const ids = id === null ? [] : boxIds(data, id);
    const keyOf = (box: string) =>
      `${id} ${box} ${valueAt(data, [...wiringPath(id ?? ""), "boxes", box, "box"])}`;
    const rows = ids.map(
      (box) =>
        this.#rows.find((row) => row.key === keyOf(box)) ??
        new BoxRow(this.#drawing, keyOf(box), [...wiringPath(id ?? ""), "boxes", box], () =>
          this.#takeOut(box),
        ),
    );
    for (const row of this.#rows) if (!rows.includes(row)) row.node.remove();
    rows.forEach((row, n) => {
      const there = this.#list.children[n] ?? null;
      if (there !== row.node) this.#list.insertBefore(row.node, there);
    });
    this.#rows = rows;
    for (const row of rows) row.update();
    this.#list.hidden = rows.length === 0;
    this.#hint.hidden = rows.length === 0;
    this.#adder.update();
  }

  /** Where what is wrong with a box is mended: at its field, where that has a path of its own. */
  focus(box: string, path?: Path): void {
    const row = this.#rows.find(({ id }) => id === box);
    if (!row) return;
    row.node.scrollIntoView({ block: "center" });
    row.focus(path);
  }

  #takeOut(box: string): void {
    const { id, view, label } = this.#drawing;
    if (id === null) return;
    const { desk } = view.bench;
    const place = boxIds(desk.data, id).indexOf(box);
    desk.edit(`taking ${box} out of ${label}`, withoutBox(desk.data, id, box));
    view.say(`${box} is out, with its cables. Undo brings it back.`);
    const next = this.#rows[Math.min(place, this.#rows.length - 1)];
    if (next) next.focus();
    else this.#adder.focus();
  }
}

class BoxRow {
  readonly node: HTMLElement;
  readonly key: string;
  readonly id: string;
  readonly #drawing: OpenDrawing;
  readonly #path: Path;
  readonly #name = el("p", { class: "box-name" });
  readonly #fault = el("p", { class: "fault" });
  readonly #out: HTMLButtonElement;
  readonly #part: RigPart;

  constructor(drawing: OpenDrawing, key: string, path: Path, onOut: () => void) {
    this.#drawing = drawing;
    this.key = key;
    this.id = String(path.at(-1));
    this.#path = path;
    this.#part = settingsOf(drawing, path, () => this.#called);
    this.#out = button("Take out", onOut, "quiet");
    this.node = el("li", {}, this.#name, this.#fault, this.#part.node, this.#out);
  }

  get #called(): string {
    const box = this.#drawing.board?.boxes.find(({ id }) => id === this.id);
    return box?.label ?? this.id;
  }

  focus(path?: Path): void {
    const field = path && this.#part.fields.find((each) => samePath(each.path, path));
    const first: Pick<RigField, "focus"> = field ?? this.#part.fields[0] ?? this.#out;
    first.focus();
  }

  update(): void {
    const { data } = this.#drawing.view.bench.desk;
    const kind = String(valueAt(data, [...this.#path, "box"]) ?? "").replaceAll("-", " ");
    setText(
      this.#name,
      kind === "pedal" || this.#called.startsWith(kind) ? this.#called : `${this.#called}, ${kind}`,
    );
    this.#out.setAttribute("aria-label", `Take out: ${this.#called}`);
    this.#part.update();
    const shown = this.#part.fields.map(({ path }) => path);
    const own = this.#drawing.faults.filter(
      ({ path }) =>
        path !== null &&
        samePath(path.slice(0, 4), this.#path) &&
        !shown.some((field) => samePath(path, field)),
    );
    setText(this.#fault, own.map(({ message }) => message).join(" "));
  }
}

function settingsOf({ view: { bench } }: OpenDrawing, path: Path, owner: () => string): RigPart {
  const { desk } = bench;
  const { number, yesNo } = fieldsAt(desk, () => path, owner);
  switch (valueAt(desk.data, [...path, "box"])) {
    case "pedal":
      return grid(yesNo("fully wet", ["fullyWet"], false));
    case "splitter":
      return grid(
        number("outputs", "", ["outputs"], "empty: 2"),
        yesNo("buffered", ["buffered"], true),
        yesNo("has mutes", ["mutes"], false),
      );
    case "summing-box":
      return grid(number("inputs", "", ["inputs"], "empty: 2"));
    case "mixer":
      return mixerPart(bench.desk, path, owner);
    default:
      return together("unknown-box");
  }
}

function mixerPart(desk: OpenDrawing["view"]["bench"]["desk"], path: Path, owner: () => string): RigPart {
  const { place } = fieldsAt(desk, () => path, owner);
  const outputs = place("outputs", ["outputs"]);
  const sides = choiceField(
    desk,
    outputs,
    [
      ["2", "two, left and right"],
      ["1", "one"],
    ],
    { usual: "2", onSet: (word) => set(desk, outputs, Number(word)) },
  );
  const inputs: Path = [...path, "inputs"];
  const count = () => listAt(desk.data, inputs).length;
  const rows: RigPart[] = [];
  const list = el("ol", { class: "mixer-inputs" });
  const more = button("Add an input", () => {
    desk.edit(`an input of ${owner()}`, [{ into: inputs, at: count(), add: { pan: 0 } }]);
    rows.at(-1)?.fields[0]?.focus();
  });
  const fewer = button("Take the last input out", () =>
    desk.edit(`taking an input of ${owner()} out`, [{ set: [...inputs, count() - 1], to: undefined }]),
  );
  const rowOf = (n: number): RigPart => {
    const called = () => `${owner()}, in ${n + 1}`;
    const { number, yesNo } = fieldsAt(desk, () => [...inputs, n], called);
    const part = grid(
      number("level", "dB", ["gainDb"]),
      number("pan", "", ["pan"]),
      yesNo("has a mute", ["mute"], false),
    );
    return {
      ...part,
      get fields() {
        return part.fields;
      },
      node: el("li", {}, el("span", { class: "input-name" }, `in ${n + 1}`), part.node),
    };
  };
  const node = el(
    "div",
    { class: "mixer-part" },
    sides.node,
    list,
    el("div", { class: "actions" }, more, fewer),
  );
  return {
    node,
    get fields() {
      return [sides, ...rows.flatMap(({ fields }) => fields)];
    },
    update() {
      sides.update();
      for (let n = rows.length; n < count(); n++) {
        rows.push(rowOf(n));
        list.append(rows[n].node);
      }
      for (const row of rows.splice(count())) row.node.remove();
      for (const row of rows) row.update();
      more.setAttribute("aria-label", `Add an input: ${owner()}`);
      fewer.setAttribute("aria-label", `Take the last input out: ${owner()}`);
      fewer.disabled = count() < 2;
    },
  };
}
