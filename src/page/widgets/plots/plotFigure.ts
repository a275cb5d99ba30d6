import { el, fill } from "../dom.js";
import { FigureFrame, type FigureFrameOptions } from "./figureFrame.js";

export interface PlotFigureOptions extends FigureFrameOptions {
  /** Draws at a width in px. */
  readonly draw: (width: number) => Element;
}

/** A figure of one plot, which is drawn again when its width changes. */
export class PlotFigure {
  readonly #options: PlotFigureOptions;
  readonly #place = el("div", { class: "plot" });
  readonly #figure: FigureFrame;
  #width = 0;
  #isStale = true;

  constructor(options: PlotFigureOptions) {
    this.#options = options;
    this.#figure = new FigureFrame(options, this.#place);
    new ResizeObserver(([entry]) => this.#fit(Math.floor(entry.contentRect.width))).observe(this.#place);
  }

  get node(): HTMLElement {
    return this.#figure.node;
  }

  update(): void {
    this.#isStale = true;
    this.#redraw();
    this.#figure.update();
  }

  #fit(width: number): void {
    if (width === 0 || (width === this.#width && !this.#isStale)) return;
    this.#width = width;
    this.#redraw();
  }

  #redraw(): void {
    if (this.#width === 0) return;
    const { title, draw, summary } = this.#options;
    this.#isStale = false;
    const drawn = draw(this.#width);
    drawn.setAttribute("role", "img");
    drawn.setAttribute("aria-label", `${title}. ${summary()}`);
    fill(this.#place, drawn);
  }
}
