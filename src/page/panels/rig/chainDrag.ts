/** What a grip moves. */
export interface Dragged {
  readonly list: HTMLElement;
  readonly row: HTMLElement;
  /** @param to  the place it has then, counted as if it had left its own */
  readonly onDrop: (to: number) => void;
}

/**
 * Lets a row of a list be dragged by its grip, by mouse, pen or finger. A line shows where it would go; Escape leaves it
 * where it was. Near the edge of the screen the page scrolls along.
 */
export function dragBy(grip: HTMLElement, { list, row, onDrop }: Dragged): void {
  let drag: Drag | null = null;
  const end = () => {
    drag?.end();
    drag = null;
  };
  grip.addEventListener("pointerdown", (event) => {
    if (!event.isPrimary || event.button !== 0) return;
    grip.setPointerCapture(event.pointerId);
    drag = new Drag(list, row, event.clientY);
  });
  grip.addEventListener("pointermove", ({ clientY }) => drag?.to(clientY));
  grip.addEventListener("pointerup", () => {
    const to = drag?.place ?? null;
    end();
    if (to !== null) onDrop(to);
  });
  for (const type of ["pointercancel", "lostpointercapture"]) grip.addEventListener(type, end);
  grip.addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || !drag) return;
    event.preventDefault();
    end();
  });
}

/** A hand that shakes is no drag. */
const leastPixels = 5;
/** So near to the edge the page scrolls, by so much a frame. */
const [edgePixels, scrollPixels] = [56, 10];

class Drag {
  readonly #list: HTMLElement;
  readonly #row: HTMLElement;
  readonly #fromY: number;
  #y: number;
  #isMoving = false;
  #frame = 0;

  constructor(list: HTMLElement, row: HTMLElement, y: number) {
    this.#list = list;
    this.#row = row;
    this.#fromY = y;
    this.#y = y;
  }

  /** Where the row would go; null where it is. */
  get place(): number | null {
    if (!this.#isMoving) return null;
    const from = this.#rows.indexOf(this.#row);
    const to = this.#gap > from ? this.#gap - 1 : this.#gap;
    return to === from ? null : to;
  }

  to(y: number): void {
    this.#y = y;
    if (!this.#isMoving && Math.abs(y - this.#fromY) < leastPixels) return;
    if (!this.#isMoving) this.#frame = requestAnimationFrame(() => this.#scroll());
    this.#isMoving = true;
    this.#row.classList.add("dragged");
    this.#show();
  }

  end(): void {
    cancelAnimationFrame(this.#frame);
    this.#row.classList.remove("dragged");
    this.#unmark();
  }

  get #rows(): readonly Element[] {
    return [...this.#list.children];
  }

  /** So many rows stand above the pointer. */
  get #gap(): number {
    return this.#rows.filter((row) => {
      const { top, height } = row.getBoundingClientRect();
      return top + height / 2 < this.#y;
    }).length;
  }

  #show(): void {
    this.#unmark();
    if (this.place === null) return;
    const rows = this.#rows;
    if (this.#gap < rows.length) rows[this.#gap].classList.add("drop-before");
    else rows.at(-1)?.classList.add("drop-after");
  }

  #unmark(): void {
    for (const row of this.#rows) row.classList.remove("drop-before", "drop-after");
  }

  #scroll(): void {
    const { innerHeight } = window;
    const by = this.#y < edgePixels ? -1 : this.#y > innerHeight - edgePixels ? 1 : 0;
    if (by !== 0) {
      scrollBy({ top: by * scrollPixels, behavior: "instant" });
      this.#show();
    }
    this.#frame = requestAnimationFrame(() => this.#scroll());
  }
}
