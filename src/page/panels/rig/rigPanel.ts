import type { RigFault } from "../../../rig/file/faults.js";
import { freeName } from "../../../rig/file/pedalEdits.js";
import { modelOf } from "../../../rig/pedals/models.js";
import { safeFileName } from "../../../text/fileName.js";
import type { RigDesk } from "../../contract/rigDesk.js";
import { button } from "../../widgets/button.js";
import { el, fill, newId, setText } from "../../widgets/dom.js";
import { download, textFile } from "../../widgets/download.js";
import { PickList } from "../../widgets/pickList.js";
import type { Panel, View } from "../view.js";
import { exampleChoice } from "./examples.js";
import { modelWords, type PedalRow, pedalRow } from "./pedalRow.js";
import { choiceField, type RigField, samePath, textField, valueAt } from "./rigFields.js";
import { playsIntoWords } from "./rigWords.js";
import { roleWords } from "./roles.js";

/** The rig file on the desk: pedals in their order, where it plays, what is wrong; opened, saved, undone. */
export function rigPanel(view: View): Panel {
  const { desk } = view.bench;
  const steps = undoSteps(desk);
  const chain = new Chain(desk);
  const own = [
    textField(desk, { path: ["name"], label: "name of the rig", owner: () => "The rig" }),
    choiceField(desk, { path: ["playsInto"], label: "plays into", owner: () => "The rig" }, playsIntoWords, {
      usual: "stereo-desk",
    }),
  ];
  const faults = el("ul", { class: "rig-faults" });
  const text = textEditor(desk);
  const update = () => {
    for (const field of own) field.update(desk);
    chain.update();
    steps.update();
    text.update();
    showFaults(faults, desk, [...own, ...chain.fields]);
  };
  update();
  return {
    children: [
      el("div", { class: "actions" }, ...steps.nodes, openButton(view), saveButton(view)),
      exampleChoice(view),
      faults,
      el("div", { class: "rig-facts" }, ...own.map(({ node }) => node)),
      chain.node,
      text.node,
    ],
    update(change) {
      if (change === "desk") update();
    },
    receive(file) {
      if (!/\.ya?ml$/i.test(file.name)) return false;
      void openRig(view, file);
      return true;
    },
  };
}

/** What is wrong, where no field says it. */
function showFaults(list: HTMLElement, { faults }: RigDesk, fields: readonly RigField[]): void {
  const isSaid = ({ path }: RigFault) =>
    fields.some((field) => samePath(path, field.path)) || (fields.length === 2 && samePath(path, ["pedals"]));
  const rest = faults.filter((fault) => !isSaid(fault));
  const lines = rest.map(({ line, message }) =>
    el("li", { class: "fault" }, `${line === undefined ? "" : `Line ${line}: `}${message}`),
  );
  fill(list, ...lines);
  list.hidden = lines.length === 0;
}

/** The pedals: a row for each place in the chain, whichever pedal stands there. */
class Chain {
  readonly node: HTMLElement;
  readonly #desk: RigDesk;
  readonly #list = el("ol", { class: "chain" });
  readonly #empty = el(
    "p",
    { class: "hint" },
    "No pedal yet: add the first one, in the order of the signal.",
  );
  readonly #rows: PedalRow[] = [];

  constructor(desk: RigDesk) {
    this.#desk = desk;
    this.node = el("div", { class: "chain-box" }, this.#list, this.#empty, this.#adder());
  }

  get fields(): readonly RigField[] {
    return this.#rows.flatMap(({ fields }) => fields);
  }

  update(): void {
    const { data } = this.#desk;
    const pedals = valueAt(data, ["pedals"]);
    const count = Array.isArray(pedals) ? pedals.length : 0;
    for (let n = this.#rows.length; n < count; n++) {
      const row = pedalRow(this.#desk, n, (to) => this.#rows[to]?.focusMoves());
      this.#rows.push(row);
      this.#list.append(row.node);
    }
    for (const { node } of this.#rows.splice(count)) node.remove();
    const roles = roleWords(data);
    this.#rows.forEach((row, n) => {
      row.update(roles[n] ?? "", count);
    });
    this.#empty.hidden = count > 0;
  }

  #adder(): HTMLElement {
    const kind = new PickList("kind", "Add a pedal at the end");
    kind.setOptions(modelWords.map(([value, words]) => [value, words]));
    const add = () => {
      const pedals = valueAt(this.#desk.data, ["pedals"]);
      const name = freeName(this.#desk.data, modelOf(kind.value).kind);
      const at = Array.isArray(pedals) ? pedals.length : 0;
      this.#desk.edit(`adding ${name}`, [
        { into: ["pedals"], at, add: { name, model: kind.value, jacks: "mono" } },
      ]);
    };
    return el("div", { class: "adder" }, kind.label, kind.list, button("Add", add));
  }
}

function undoSteps(desk: RigDesk) {
  const undo = button("Undo", () => desk.undo());
  const redo = button("Redo", () => desk.redo());
  return {
    nodes: [undo, redo],
    update() {
      setText(undo, desk.undoes === null ? "Undo" : `Undo: ${desk.undoes}`);
      setText(redo, desk.redoes === null ? "Redo" : `Redo: ${desk.redoes}`);
      undo.disabled = desk.undoes === null;
      redo.disabled = desk.redoes === null;
    },
  };
}

function openButton(view: View): HTMLElement {
  const id = newId("open-rig");
  const input = el("input", { type: "file", id, accept: ".yaml,.yml", class: "visually-hidden" });
  input.addEventListener("change", () => {
    const [file] = input.files ?? [];
    if (file) void openRig(view, file);
    input.value = "";
  });
  return el("span", { class: "file-button" }, input, el("label", { for: id }, "Open a rig file"));
}

async function openRig({ bench: { desk }, say }: View, file: File): Promise<void> {
  if (file.size > mostBytes) {
    say(`${file.name} is larger than 1 MB; a rig file is a few kB of YAML.`);
    return;
  }
  desk.open(file.name, await file.text());
  say(desk.faults.length > 0 ? `${file.name} has faults; they are listed.` : `${file.name} is open.`);
}
const mostBytes = 1_000_000;

function saveButton({ bench: { desk } }: View): HTMLElement {
  return button("Save the rig file", () => {
    const name = String(valueAt(desk.data, ["name"]) ?? "rig");
    download(textFile(desk.text, "application/yaml"), `${safeFileName(name)}.yaml`);
    desk.saved();
  });
}

/** The file itself, for those who write it. */
function textEditor(desk: RigDesk) {
  const id = newId("rig-text");
  const area = el("textarea", { id, rows: 24, spellcheck: "false", autocomplete: "off", wrap: "off" });
  area.addEventListener("change", () => desk.replace("typing", area.value));
  return {
    node: el(
      "details",
      { class: "rig-text" },
      el("summary", {}, "The rig file as text"),
      el(
        "label",
        { for: id },
        "Every change above stands here, and what is typed here holds as soon as you leave the field.",
      ),
      area,
    ),
    update() {
      if (document.activeElement !== area && area.value !== desk.text) area.value = desk.text;
    },
  };
}
