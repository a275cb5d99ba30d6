import { drawing } from "../../../rig/drawing/boxSize.js";
import type { LaidBox } from "../../../rig/drawing/layout.js";
import { layoutWiring } from "../../../rig/drawing/layout.js";
import { inSignalOrder } from "../../../rig/wiring/wiring.js";
import { button } from "../../widgets/button.js";
import { scroller } from "../../widgets/dataTable.js";
import { el, fill, setText } from "../../widgets/dom.js";
import { wiringDiagram } from "../../widgets/wiringDiagram.js";
import { dragCable } from "./cableDrag.js";
import type { OpenDrawing, Plug } from "./openDrawing.js";

/** Of a jack on the board, px: a finger hits it (WCAG 2.2, 2.5.8: 24 at the least). */
const jackHeight = 26;
/** How far a jack's button goes beyond its box. */
const beyondBox = 12;

/** The drawing itself. Its jacks are buttons: one is picked, then the one at the other end, and a cable runs between. */
export class BoardView {
  readonly node: HTMLElement;
  readonly #drawing: OpenDrawing;
  readonly #toBox: (id: string) => void;
  readonly #board = el("div", { class: "board" });
  readonly #scroller: HTMLElement;
  readonly #hint = el("p", { class: "hint" });
  readonly #pull = button("Pull its cable", () => this.#pullPicked(), "quiet");
  readonly #letGo = button("Let go", () => this.#pick(null), "quiet");
  #picked: Plug | null = null;
  #shown = "";

  /** @param toBox  goes to what is set on a box */
  constructor(drawing: OpenDrawing, toBox: (id: string) => void) {
    this.#drawing = drawing;
    this.#toBox = toBox;
    this.#scroller = scroller("The drawing", this.#board);
    this.node = el(
      "div",
      { class: "draw-board" },
      this.#scroller,
      el("div", { class: "picked" }, this.#hint, this.#pull, this.#letGo),
    );
    this.node.addEventListener("keydown", (event) => {
      if (event.key !== "Escape" || !this.#picked) return;
      event.preventDefault();
      this.#pick(null);
    });
  }

  update(): void {
    const { board, id, faults } = this.#drawing;
    this.node.hidden = id === null;
    const shown = JSON.stringify([id, board, faults.map(({ path }) => path)]);
    if (shown !== this.#shown) {
      this.#shown = shown;
      this.#draw();
    }
    this.#showPicked();
  }

  #draw(): void {
    const { board, faults, label } = this.#drawing;
    const focused = document.activeElement;
    const key = focused instanceof HTMLElement ? focused.dataset.jack : undefined;
    if (!board) {
      fill(this.#board);
      return;
    }
    const layout = layoutWiring(board, jackHeight);
    const partsAt = (word: string) =>
      faults.flatMap(({ path }) => (path?.[2] === word && path[3] !== undefined ? [path[3]] : []));
    const wrong = {
      boxes: new Set(partsAt("boxes").map(String)),
      cables: new Set(partsAt("cables").map(Number)),
    };
    const place = new Map(layout.boxes.map((box) => [box.id, box]));
    const inOrder = inSignalOrder(board).flatMap(({ id }) => place.get(id) ?? []);
    this.#board.style.width = `${layout.width}px`;
    this.#board.style.height = `${layout.height}px`;
    fill(
      this.#board,
      wiringDiagram(layout, label, wrong),
      ...inOrder.flatMap((box) => [this.#head(box), ...box.jacks.map((jack) => this.#jack(box, jack))]),
    );
    if (key !== undefined) this.#buttonOf(key)?.focus();
  }

  #head({ id, kind, label, x, y, width, jacks }: LaidBox): HTMLElement | null {
    if (kind === "take" || kind === "destination") return null;
    const node = button("", () => this.#toBox(id), "box-head");
    node.tabIndex = -1;
    node.setAttribute("aria-label", `${label}: what is set on it`);
    const top = Math.min(...jacks.map((jack) => jack.y)) - jackHeight / 2;
    setPlace(node, { left: x, top: y, width, height: top - y });
    return node;
  }

  #jack(box: LaidBox, { name, side, y }: LaidBox["jacks"][number]): HTMLElement {
    const plug: Plug = { box: box.id, jack: name, side };
    const node = button("", () => this.#choose(plug), "jack-button");
    node.dataset.jack = keyOf(plug);
    node.setAttribute("aria-label", this.#wordsOf(plug));
    // As far as the jack's name reaches; names of one row leave room between them.
    const inside = drawing.padding + name.length * drawing.jackCharWidth + 4;
    setPlace(node, {
      left: side === "in" ? box.x - beyondBox : box.x + box.width - inside,
      top: y - jackHeight / 2,
      width: inside + beyondBox,
      height: jackHeight,
    });
    node.addEventListener("keydown", (event) => {
      if (event.key !== "Delete" && event.key !== "Backspace") return;
      event.preventDefault();
      this.#pullAt(plug);
    });
    const from = { x: side === "in" ? box.x : box.x + box.width, y };
    dragCable(node, {
      board: this.#board,
      from,
      takes: (other) => {
        const there = this.#plugOf(other);
        return there !== null && there.side !== side;
      },
      onDrop: (other) => {
        const there = this.#plugOf(other);
        if (there) this.#connect(plug, there);
      },
    });
    return node;
  }

  /** "Undertow, out left: to Mixer, in 1" */
  #wordsOf(plug: Plug): string {
    const ends = this.#drawing.cablesAt(plug).map((n) => {
      const cable = this.#drawing.board?.cables[n];
      if (!cable) return "";
      return plug.side === "out"
        ? `to ${this.#drawing.nameOf(cable.to)}`
        : `from ${this.#drawing.nameOf(cable.from)}`;
    });
    return `${this.#drawing.nameOf(plug)}: ${ends.join(" and ") || (plug.side === "out" ? "free output" : "free input")}`;
  }

  #choose(plug: Plug): void {
    const picked = this.#picked;
    if (picked && keyOf(picked) === keyOf(plug)) this.#pick(null);
    else if (picked && picked.side !== plug.side) this.#connect(picked, plug);
    else this.#pick(plug);
  }

  #connect(one: Plug, other: Plug): void {
    this.#picked = null;
    this.#drawing.connect(one, other);
    this.#showPicked();
  }

  #pick(plug: Plug | null): void {
    const before = this.#picked;
    this.#picked = plug;
    this.#showPicked();
    if (plug) this.#drawing.view.say(`${this.#drawing.nameOf(plug)} is picked. ${wanted[plug.side]}`);
    else if (before) {
      this.#drawing.view.say("Let go.");
      if (!this.node.contains(document.activeElement) || document.activeElement === this.#letGo)
        this.#buttonOf(keyOf(before))?.focus();
    }
  }

  #pullPicked(): void {
    const picked = this.#picked;
    if (!picked) return;
    this.#pullAt(picked);
    this.#buttonOf(keyOf(picked))?.focus();
  }

  #pullAt(plug: Plug): void {
    const last = this.#drawing.cablesAt(plug).at(-1);
    this.#picked = null;
    if (last !== undefined) this.#drawing.pull(last);
    this.#showPicked();
  }

  #showPicked(): void {
    const picked = this.#picked && this.#plugOf(this.#buttonOf(keyOf(this.#picked)));
    this.#picked = picked;
    for (const node of this.#buttons()) {
      const plug = this.#plugOf(node);
      node.setAttribute("aria-pressed", String(picked !== null && node.dataset.jack === keyOf(picked)));
      node.classList.toggle("wanted", picked !== null && plug !== null && plug.side !== picked.side);
    }
    const isTaken = picked !== null && this.#drawing.cablesAt(picked).length > 0;
    const next = picked && (isTaken ? onePlug : wanted[picked.side]);
    setText(this.#hint, picked ? `Picked: ${this.#wordsOf(picked)}. ${next}` : howTo);
    this.#pull.hidden = !isTaken;
    this.#letGo.hidden = !picked;
  }

  #buttons(): readonly HTMLButtonElement[] {
    return [...this.#board.querySelectorAll<HTMLButtonElement>(".jack-button")];
  }
  #buttonOf(key: string): HTMLButtonElement | null {
    return this.#buttons().find((node) => node.dataset.jack === key) ?? null;
  }
  #plugOf(node: Element | null): Plug | null {
    const key = node instanceof HTMLElement ? node.dataset.jack : undefined;
    const all = [...this.#drawing.plugs("out"), ...this.#drawing.plugs("in")];
    return all.find((plug) => keyOf(plug) === key) ?? null;
  }
}

const wanted = {
  out: "Now the input that its cable goes to.",
  in: "Now the output that its cable comes from.",
} as const;
const onePlug = "One jack holds one plug: pull its cable before another comes in.";
const howTo =
  "A cable: click or tap one jack, then the other, or draw from one to the other; by keyboard, Tab and Enter. Delete pulls the cable of a jack, Escape lets go.";

const keyOf = ({ box, jack, side }: Plug): string => JSON.stringify([side, box, jack]);

function setPlace(
  { style }: HTMLElement,
  place: Readonly<Record<"left" | "top" | "width" | "height", number>>,
): void {
  style.left = `${place.left}px`;
  style.top = `${place.top}px`;
  style.width = `${place.width}px`;
  style.height = `${place.height}px`;
}
