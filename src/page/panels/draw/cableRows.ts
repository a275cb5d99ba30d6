import { cableText } from "../../../rig/file/cableText.js";
import type { RigFault } from "../../../rig/file/faults.js";
import { cablesIn, wiringPath } from "../../../rig/file/wiringEdits.js";
import { button } from "../../widgets/button.js";
import { el, fill, newId, setText } from "../../widgets/dom.js";
import { samePath } from "../../widgets/form/rigFields.js";
import { PickList } from "../../widgets/pickList.js";
import { endOf, type OpenDrawing, type Plug } from "./openDrawing.js";

/** The cables as a list, each from a jack to a jack: the drawing's twin, which needs no pointer and no picture. */
export class CableRows {
  readonly node: HTMLElement;
  readonly #drawing: OpenDrawing;
  readonly #list = el("ol", { class: "cable-rows" });
  readonly #none = el("p", { class: "hint" }, "No cable yet.");
  readonly #from = new PickList("new-cable", "From");
  readonly #to = new PickList("new-cable", "To");
  readonly #add = button("Add this cable", () => this.#addCable());
  #rows: CableRow[] = [];

  constructor(drawing: OpenDrawing) {
    this.#drawing = drawing;
    this.node = el(
      "div",
      { class: "draw-cables" },
      el("h3", {}, "Cables"),
      this.#none,
      this.#list,
      el(
        "div",
        { class: "adder", role: "group", "aria-label": "One more cable" },
        el("span", { class: "pick" }, this.#from.label, this.#from.list),
        el("span", { class: "pick" }, this.#to.label, this.#to.list),
        this.#add,
      ),
    );
  }

  update(): void {
    const { id, board, view } = this.#drawing;
    const count = id === null ? 0 : cablesIn(view.bench.desk.data, id).length;
    for (let n = this.#rows.length; n < count; n++) {
      const row = new CableRow(this.#drawing, n, () => this.#pull(n));
      this.#rows.push(row);
      this.#list.append(row.node);
    }
    for (const { node } of this.#rows.splice(count)) node.remove();
    for (const row of this.#rows) row.update();
    this.#none.hidden = count > 0;
    this.#list.hidden = count === 0;
    // What is plugged in already would be a fault.
    const free = (side: Plug["side"]) =>
      this.#drawing.plugs(side).filter((plug) => this.#drawing.cablesAt(plug).length === 0);
    this.#refill(this.#from, free("out"));
    this.#refill(this.#to, free("in"));
    this.#add.disabled = !board || this.#from.value === "" || this.#to.value === "";
  }

  /** Where a fault of a cable is mended. */
  focus(place: number): void {
    this.#rows[place]?.focus();
  }

  focusNew(): void {
    this.#from.list.scrollIntoView({ block: "center" });
    this.#from.list.focus();
  }

  #refill(pick: PickList, plugs: readonly Plug[]): void {
    const { value } = pick;
    const options = plugs.map((plug) => [endOf(plug), this.#drawing.nameOf(plug)] as const);
    const kept = options.some(([end]) => end === value) ? value : options[0]?.[0];
    pick.setOptions(options.length > 0 ? options : [["", "none is free"]], kept);
  }

  #addCable(): void {
    const plugOf = (side: Plug["side"], end: string) =>
      this.#drawing.plugs(side).find((plug) => endOf(plug) === end);
    const from = plugOf("out", this.#from.value);
    const to = plugOf("in", this.#to.value);
    if (!from || !to) return;
    this.#drawing.connect(from, to);
    this.#from.list.focus();
  }

  #pull(place: number): void {
    this.#drawing.pull(place);
    const next = this.#rows[Math.min(place, this.#rows.length - 1)];
    if (next) next.focus();
    else this.#from.list.focus();
  }
}

class CableRow {
  readonly node: HTMLElement;
  readonly #drawing: OpenDrawing;
  readonly #place: number;
  readonly #from: HTMLSelectElement;
  readonly #to: HTMLSelectElement;
  readonly #fault = el("p", { class: "fault", id: newId("cable-fault") });

  constructor(drawing: OpenDrawing, place: number, onPull: () => void) {
    this.#drawing = drawing;
    this.#place = place;
    this.#from = el("select", { "aria-label": `Cable ${place + 1}, from` });
    this.#to = el("select", { "aria-label": `Cable ${place + 1}, to` });
    for (const list of [this.#from, this.#to]) list.addEventListener("change", () => this.#replug());
    const out = button("Pull", onPull, "quiet");
    out.setAttribute("aria-label", `Pull cable ${place + 1}`);
    this.node = el(
      "li",
      {},
      el("span", { class: "ends" }, this.#from, el("span", { "aria-hidden": true }, "to"), this.#to, out),
      this.#fault,
    );
  }

  focus(): void {
    this.node.scrollIntoView({ block: "center" });
    this.#from.focus();
  }

  update(): void {
    const { board, id, view, faults } = this.#drawing;
    if (id === null) return;
    const drawn = board?.cables[this.#place];
    const written = cablesIn(view.bench.desk.data, id)[this.#place];
    this.#show(this.#from, "out", drawn ? endOf(drawn.from) : written.from);
    this.#show(this.#to, "in", drawn ? endOf(drawn.to) : written.to);
    const own = faults.filter((each) => samePath(each.path, this.#path(id)));
    this.#tell(own);
  }

  #path(id: string) {
    return [...wiringPath(id), "cables", this.#place];
  }

  #tell(faults: readonly RigFault[]): void {
    setText(this.#fault, faults.map(({ message }) => message).join(" "));
    for (const list of [this.#from, this.#to]) {
      list.setAttribute("aria-invalid", String(faults.length > 0));
      if (faults.length > 0) list.setAttribute("aria-describedby", this.#fault.id);
      else list.removeAttribute("aria-describedby");
    }
  }

  /** An end that is no jack of the board stands there as it is written. */
  #show(list: HTMLSelectElement, side: Plug["side"], end: string): void {
    const options = this.#drawing.plugs(side).map((plug) => [endOf(plug), this.#drawing.nameOf(plug)]);
    if (!options.some(([known]) => known === end)) options.push([end, end]);
    const shown = JSON.stringify(options);
    if (list.dataset.shown !== shown)
      fill(list, ...options.map(([value, words]) => el("option", { value }, words)));
    list.dataset.shown = shown;
    list.value = end;
  }

  #replug(): void {
    const { id, view, label } = this.#drawing;
    if (id === null) return;
    const to = cableText({ from: this.#from.value, to: this.#to.value });
    view.bench.desk.edit(`cable ${this.#place + 1} of ${label}`, [{ set: this.#path(id), to }]);
  }
}
