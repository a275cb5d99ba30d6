import { scroller } from "../dataTable.js";
import { type Child, el, newId, setText } from "../dom.js";

export interface FigureFrameOptions {
  readonly title: string;
  /** Under the title: what is drawn and how to read it. */
  readonly reads: string;
  /** What is drawn now, in words. */
  readonly summary: () => string;
  readonly table: () => HTMLTableElement;
  /** What the table is called to those who hear the page, where that is not "Table: " and the title. */
  readonly tableName?: string;
  /** Takes the whole width where others share it. */
  readonly wide?: boolean;
}

/** What is drawn, with its title, its summary in words, and its table one click away. */
export class FigureFrame {
  readonly node: HTMLElement;
  readonly #options: FigureFrameOptions;
  readonly #words = el("p", { class: "summary" });
  readonly #details = el("details", {}, el("summary", {}, "Table"));

  constructor(options: FigureFrameOptions, ...drawn: readonly Child[]) {
    const { title, reads, wide } = options;
    const heading = newId("figure");
    this.#options = options;
    this.#details.addEventListener("toggle", () => this.#fillTable());
    this.node = el(
      "figure",
      { class: wide ? "wide" : null, "aria-labelledby": heading },
      el("h3", { id: heading }, title),
      el("p", { class: "reads" }, reads),
      ...drawn,
      this.#words,
      this.#details,
    );
  }

  /** Words and table as they are now. */
  update(): void {
    setText(this.#words, this.#options.summary());
    this.#fillTable();
  }

  #fillTable(): void {
    if (!this.#details.open) return;
    const { title, table, tableName = `Table: ${title}` } = this.#options;
    this.#details.querySelector(".scroller")?.remove();
    this.#details.append(scroller(tableName, table()));
  }
}
