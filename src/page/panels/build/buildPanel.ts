import { dryId } from "../../../rig/wiring/dryWiring.js";
import type { BenchChange } from "../../contract/bench.js";
import { button } from "../../widgets/button.js";
import { el, fill } from "../../widgets/dom.js";
import { PickList } from "../../widgets/pickList.js";
import { printOnly } from "../../widgets/printOnly.js";
import { copyable, startDrawing } from "../startDrawing.js";
import { type BuildableRouting, buildable, type Panel, reportOf, type View } from "../view.js";
import { benchSheet } from "./benchSheet.js";

/** The bench sheets: one on the screen, all of them or that one in print. */
export class BuildPanel implements Panel {
  readonly children: readonly HTMLElement[];
  readonly #view: View;
  readonly #picker: PickList;
  readonly #sheets = el("div", { class: "sheets" });
  /** The routing whose sheet is on the screen. */
  #shown: string;
  /** The routing that was heard at the last change. */
  #heard: string;

  constructor(view: View) {
    const { chosen } = view.bench.player;
    this.#view = view;
    this.#shown = chosen;
    this.#heard = chosen;
    this.#picker = new PickList("sheet", "Sheet", (id) => this.#show(id));
    this.#draw();
    const actions = [
      button("Draw on by hand", () => this.#drawOn()),
      button("Print this sheet", () => printOnly("one")),
      button("Print all sheets", () => printOnly("all")),
    ];
    this.children = [
      el("div", { class: "actions" }, this.#picker.label, this.#picker.list, ...actions),
      this.#sheets,
    ];
  }

  update(change: BenchChange): void {
    if (change === "report") this.#draw();
    const { chosen } = this.#view.bench.player;
    if (change !== "player" || chosen === this.#heard) return;
    this.#heard = chosen;
    if (chosen !== dryId) this.#show(chosen);
  }

  /** The routing whose sheet is on the screen, as a drawing to change. */
  #drawOn(): void {
    startDrawing(this.#view, copyable(this.#view).find(({ id }) => id === this.#shown) ?? null);
  }

  #draw(): void {
    const routings = buildable(this.#view);
    const isThere = routings.some(({ id }) => id === this.#shown);
    this.#picker.setOptions(routings.map(({ id, label }) => [id, label]));
    fill(this.#sheets, ...routings.map((routing) => sheetOf(this.#view, routing)));
    this.#show(isThere ? this.#shown : (routings[0]?.id ?? ""));
  }

  #show(id: string): void {
    this.#shown = id;
    this.#picker.value = id;
    for (const sheet of this.#sheets.children)
      sheet.classList.toggle("off-screen", sheet.getAttribute("data-id") !== id);
  }
}

function sheetOf(view: View, routing: BuildableRouting): HTMLElement {
  const { bench } = view;
  const node = benchSheet({
    rigName: bench.rig.name,
    takeName: bench.takeName,
    isReference: routing.id === reportOf(view).reference,
    routing,
    wiring: bench.wiringOf(routing.id),
  });
  node.setAttribute("data-id", routing.id);
  return node;
}
