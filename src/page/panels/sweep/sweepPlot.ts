import type { SweepPoint } from "./sweepPoints.js";

/** What a plot of a sweep does beside being drawn: a point under the pointer is read, a click sets the rig to it. */
export interface SweepActions {
  read(point: SweepPoint): void;
  hear(point: SweepPoint): void;
  nameOf(routing: string): string;
}

export interface SweepPlot {
  readonly node: HTMLElement;
  /** Draws it again. */
  update(): void;
  /** Shows where the point is that is read now. */
  showCursor(): void;
}

/** A drawing of points that shows one of them. */
export interface PointDrawing {
  readonly node: Element;
  showCursor(): void;
}

/** Reads the point under the pointer, and sets the rig to it at a click. */
export function listenForPoints(
  drawn: Element,
  actions: SweepActions,
  under: (x: number, y: number) => SweepPoint | null,
): void {
  const find = ({ clientX, clientY }: MouseEvent) => {
    const { left, top } = drawn.getBoundingClientRect();
    return under(clientX - left, clientY - top);
  };
  const on = (kind: "pointermove" | "click", act: (point: SweepPoint) => void) =>
    drawn.addEventListener(kind, (event) => {
      const point = event instanceof MouseEvent ? find(event) : null;
      if (point) act(point);
    });
  on("pointermove", actions.read);
  on("click", actions.hear);
}
