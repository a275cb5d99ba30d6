import type { RigFault } from "../../../rig/file/faults.js";
import { wiringIds, wiringPath, withoutWiring } from "../../../rig/file/wiringEdits.js";
import type { BenchChange } from "../../contract/bench.js";
import { button } from "../../widgets/button.js";
import { el, fill } from "../../widgets/dom.js";
import { faultLine } from "../../widgets/form/faultLine.js";
import { fieldsAt } from "../../widgets/form/fieldsAt.js";
import type { RigField } from "../../widgets/form/rigFields.js";
import { undoSteps } from "../../widgets/form/undoSteps.js";
import { PickList } from "../../widgets/pickList.js";
import { copyable, startDrawing } from "../startDrawing.js";
import type { Panel, View } from "../view.js";
import { BoardView } from "./boardView.js";
import { BoxRows } from "./boxRows.js";
import { CableRows } from "./cableRows.js";
import { OpenDrawing } from "./openDrawing.js";

/** No routing's id. */
const emptyBoard = "*";

/** Wirings of one's own: boxes and cables on the drawing itself, and the same as lists. */
export class DrawPanel implements Panel {
  readonly children: readonly HTMLElement[];
  readonly #view: View;
  readonly #drawing: OpenDrawing;
  readonly #from = new PickList("begin", "Begin with", (id) => {
    this.#wanted = id;
  });
  readonly #which = new PickList("drawn", "Drawing", (id) => this.#open(id));
  readonly #whichPick = el("span", { class: "pick" }, this.#which.label, this.#which.list);
  readonly #label: RigField;
  readonly #hear = button("Hear it", () => this.#hearIt());
  readonly #out = button("Take this wiring out", () => this.#takeOut(), "quiet");
  readonly #steps;
  readonly #faults = el("ul", { class: "draw-faults" });
  readonly #cautions = el("ul", { class: "draw-cautions" });
  readonly #board: BoardView;
  readonly #boxes: BoxRows;
  readonly #cables: CableRows;
  readonly #start = button("Draw by hand", () => this.#begin());
  readonly #whole = el("fieldset", { class: "drawing" });
  /** What a person chose to begin with; else it is what is heard. */
  #wanted: string | null = null;
  #ids: readonly string[] = [];
  /** The drawing as it was last. */
  #drawn: { readonly file: string; readonly id: string | null; readonly hand: string };
  /** It is another since it was heard: it is heard as soon as it is whole. */
  #isAwaited = false;

  constructor(view: View) {
    const { desk } = view.bench;
    this.#view = view;
    this.#drawing = new OpenDrawing(view);
    this.#steps = undoSteps(desk);
    this.#label = fieldsAt(
      desk,
      () => wiringPath(this.#drawing.id ?? ""),
      () => "This wiring",
    ).text("name", ["label"]);
    this.#label.node.classList.add("draw-label");
    this.#boxes = new BoxRows(this.#drawing);
    this.#cables = new CableRows(this.#drawing);
    this.#board = new BoardView(this.#drawing, (id) => this.#boxes.focus(id));
    fill(
      this.#whole,
      el("div", { class: "actions" }, this.#whichPick, this.#label.node, this.#hear, this.#out),
      el("div", { class: "actions" }, ...this.#steps.nodes),
      this.#board.node,
      this.#faults,
      this.#cautions,
      el("div", { class: "draw-lists" }, this.#cables.node, this.#boxes.node),
    );
    this.children = [
      el("p", { class: "hint" }, "Boxes and cables as you would lay them, compared with the other wirings."),
      el(
        "div",
        { class: "actions" },
        el("span", { class: "pick" }, this.#from.label, this.#from.list),
        this.#start,
      ),
      this.#whole,
    ];
    view.goToDrawing = (fault) => this.#goTo(fault);
    this.#ids = wiringIds(desk.data);
    this.#drawing.refresh();
    const { id, hand } = this.#drawing;
    this.#drawn = { file: desk.file, id, hand: JSON.stringify(hand) };
    this.#updateFrom();
    this.#update();
  }

  update(change: BenchChange): void {
    if (change === "desk") this.#update();
    if (change === "report" || change === "shape") this.#updateFrom();
    if (change === "report" || change === "shape") this.#hearWhole();
  }

  #update(): void {
    const { data } = this.#view.bench.desk;
    const ids = wiringIds(data);
    const fresh = ids.find((id) => !this.#ids.includes(id));
    this.#ids = ids;
    if (fresh !== undefined) this.#drawing.choose(fresh);
    else this.#drawing.refresh();
    const { id, faults, hand } = this.#drawing;
    const { file } = this.#view.bench.desk;
    const drawn = { file, id, hand: JSON.stringify(hand) };
    const before = this.#drawn;
    const isChanged = id === before.id && drawn.hand !== before.hand;
    if (file === before.file && (fresh !== undefined || isChanged)) this.#isAwaited = true;
    this.#drawn = drawn;
    const { canEdit } = this.#view.bench.desk;
    this.#start.disabled = !canEdit;
    this.#whole.disabled = !canEdit;
    this.#whole.hidden = id === null;
    this.#whichPick.hidden = ids.length < 2;
    this.#which.setOptions(
      ids.map((each) => [each, this.#view.bench.desk.draft?.wirings[each]?.label ?? each]),
      id ?? undefined,
    );
    this.#label.update();
    this.#steps.update();
    fill(
      this.#faults,
      ...faults.map((fault) => el("li", { class: "fault" }, ...faultLine(fault, () => this.#goTo(fault)))),
    );
    this.#faults.hidden = faults.length === 0;
    const { cautions } = this.#drawing;
    fill(this.#cautions, ...cautions.map((sentence) => el("li", {}, sentence)));
    this.#cautions.hidden = cautions.length === 0;
    this.#board.update();
    this.#boxes.update();
    this.#cables.update();
    this.#hearWhole();
  }

  /** What there is to begin with; while a new rig is worked out it stays as it was. */
  #updateFrom(): void {
    const { report, player } = this.#view.bench;
    if (!report && this.#from.value !== "") return;
    const known = copyable(this.#view).map(({ id, label }) => [id, label] as const);
    this.#from.setOptions([...known, [emptyBoard, "an empty board"]]);
    const offered = [...known.map(([id]) => id), emptyBoard];
    const shown = [this.#wanted, player.chosen, offered[0]].find((id) => id !== null && offered.includes(id));
    this.#from.value = shown ?? emptyBoard;
  }

  #begin(): void {
    const from = copyable(this.#view).find(({ id }) => id === this.#from.value) ?? null;
    startDrawing(this.#view, from);
  }

  #open(id: string): void {
    this.#drawing.choose(id);
    this.#update();
  }

  get #canBeHeard(): boolean {
    const { id, faults } = this.#drawing;
    const { report, player } = this.#view.bench;
    const isMeasured = report?.routings.some((routing) => routing.id === id) ?? false;
    return id !== null && faults.length === 0 && isMeasured && player.choices.includes(id);
  }

  #hearWhole(): void {
    this.#hear.disabled = !this.#canBeHeard;
    const { id } = this.#drawing;
    if (!this.#isAwaited || !this.#canBeHeard || id === null) return;
    this.#isAwaited = false;
    this.#view.bench.player.choose(id);
  }

  #hearIt(): void {
    const { id, view } = this.#drawing;
    if (id === null) return;
    view.bench.player.choose(id);
    if (!view.bench.player.playing) view.bench.player.play();
  }

  #takeOut(): void {
    const { id, label } = this.#drawing;
    if (id === null) return;
    this.#view.bench.desk.edit(`taking ${label} out`, withoutWiring(id));
    this.#from.list.focus();
    this.#view.say(`${label} is out. Undo brings it back.`);
  }

  /** @returns whether it is a fault of a drawing, which then has the focus */
  #goTo({ path }: RigFault): boolean {
    const [first, id, part, place] = path ?? [];
    if (first !== "wirings" || !this.#ids.includes(String(id)) || !path) return false;
    if (this.#drawing.id !== id) this.#open(String(id));
    if (part === "cables" && place !== undefined) this.#cables.focus(Number(place));
    else if (part === "boxes" && place !== undefined) this.#boxes.focus(String(place), path);
    else if (part === "label") this.#label.focus();
    else this.#cables.focusNew();
    return true;
  }
}
