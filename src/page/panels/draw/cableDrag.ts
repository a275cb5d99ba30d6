import { svg } from "../../widgets/dom.js";

interface Dragging {
  readonly board: HTMLElement;
  /** The jack that it is drawn from, px on the board. */
  readonly from: { readonly x: number; readonly y: number };
  /** Whether a cable may end there. */
  readonly takes: (node: Element) => boolean;
  readonly onDrop: (node: Element) => void;
}

/** A hand that shakes is no drag. */
const leastPixels = 6;

/** Lets a cable be drawn from a jack to another, by mouse, pen or finger; Escape gives it up. */
export function dragCable(jack: HTMLElement, dragging: Dragging): void {
  let begun: { readonly x: number; readonly y: number } | null = null;
  let drag: Drag | null = null;
  let wasDragged = false;
  const byEscape = (event: KeyboardEvent) => {
    if (event.key !== "Escape") return;
    event.preventDefault();
    event.stopPropagation();
    end();
  };
  const end = () => {
    drag?.end();
    drag = null;
    begun = null;
    document.removeEventListener("keydown", byEscape, { capture: true });
  };
  jack.addEventListener("pointerdown", (event) => {
    if (!event.isPrimary || event.button !== 0) return;
    jack.setPointerCapture(event.pointerId);
    begun = { x: event.clientX, y: event.clientY };
  });
  jack.addEventListener("pointermove", ({ clientX, clientY }) => {
    if (!begun) return;
    if (!drag && Math.hypot(clientX - begun.x, clientY - begun.y) < leastPixels) return;
    if (!drag) {
      drag = new Drag(dragging);
      wasDragged = true;
      document.addEventListener("keydown", byEscape, { capture: true });
    }
    drag.to(clientX, clientY);
  });
  jack.addEventListener("pointerup", () => {
    const there = drag?.target ?? null;
    end();
    // The click of this press comes before any timer.
    setTimeout(() => {
      wasDragged = false;
    });
    if (there) dragging.onDrop(there);
  });
  for (const type of ["pointercancel", "lostpointercapture"]) jack.addEventListener(type, end);
  const refuseClick = (event: Event) => {
    if (wasDragged) event.stopImmediatePropagation();
  };
  jack.addEventListener("click", refuseClick, { capture: true });
}

/** A cable with one end loose. */
class Drag {
  readonly #dragging: Dragging;
  readonly #line = svg("path", { class: "cable loose" });
  #target: Element | null = null;

  constructor(dragging: Dragging) {
    this.#dragging = dragging;
    dragging.board.querySelector("svg")?.append(this.#line);
  }

  /** The jack that the loose end is at; null where it is at none that takes it. */
  get target(): Element | null {
    return this.#target;
  }

  to(clientX: number, clientY: number): void {
    const { board, from, takes } = this.#dragging;
    const { left, top } = board.getBoundingClientRect();
    const over = document.elementFromPoint(clientX, clientY)?.closest(".jack-button") ?? null;
    this.#mark(over && board.contains(over) && takes(over) ? over : null);
    this.#line.setAttribute("d", `M${from.x},${from.y}L${clientX - left},${clientY - top}`);
  }

  end(): void {
    this.#mark(null);
    this.#line.remove();
  }

  #mark(target: Element | null): void {
    this.#target?.classList.remove("drop-here");
    target?.classList.add("drop-here");
    this.#target = target;
  }
}
