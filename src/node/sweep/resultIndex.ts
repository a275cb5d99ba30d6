import { closeSync, openSync, readSync } from "node:fs";
import type { Figure } from "../../sound/measure/measure.js";
import { widthKeptMeasure } from "../../sound/measure/widthKept.js";
import { UserError } from "../../text/userError.js";
import { widthKept } from "../../work/sweep/figures.js";
import { placesOf } from "../../work/sweep/grid.js";
import { variantsOf } from "../../work/sweep/plan.js";
import type { ResultNumber, SweepResults } from "../../work/sweep/results.js";
import type { ResultsHead } from "../../work/sweep/resultsHead.js";
import { fileFault } from "../files/fileFault.js";
import { pauses } from "../threads/pauses.js";
import { entriesOf, figuresIn, figuresText, pickFigures } from "./resultsFile.js";

/**
 * Where every result of a sweep stands in its files, and the few figures of it that ranking reads. Memory grows by a
 * hundred bytes a result, not by its figures.
 */
export class ResultIndex implements SweepResults {
  readonly head: ResultsHead;
  readonly settings: number;
  /** Places of the grid, one a setting. */
  readonly places: Float64Array;
  readonly #paths: readonly string[];
  readonly #kept: readonly string[];
  readonly #values: Float64Array;
  readonly #starts: Float64Array;
  readonly #files: Uint16Array;
  readonly #algebra: Uint8Array;
  readonly #offsets: readonly number[];
  /** Results in all, draws among them. */
  readonly total: number;
  /** Figures of settings that were rendered by themselves, by result. */
  readonly rendered = new Map<ResultNumber, readonly Figure[]>();
  #missing: number;

  /**
   * Reads results; the calling thread hears of other things meanwhile.
   * @param kept  names of the figures to keep
   */
  static async of(
    head: ResultsHead,
    paths: readonly string[],
    kept: readonly string[],
    signal?: AbortSignal,
  ): Promise<ResultIndex> {
    const pause = pauses(signal);
    const index = new ResultIndex(head, paths, kept);
    for (const [file, path] of paths.entries()) await index.#read(path, file, pause);
    return index;
  }

  private constructor(head: ResultsHead, paths: readonly string[], kept: readonly string[]) {
    this.head = head;
    const { plan } = head;
    this.places = placesOf(plan.groups, plan.sample, plan.seed);
    this.settings = this.places.length;
    this.#paths = paths;
    this.#kept = [...new Set([...kept, "sideShare"])];
    let total = 0;
    this.#offsets = plan.routings.map((routing) => {
      const start = total;
      total += this.settings * variantsOf(plan, routing);
      return start;
    });
    this.total = total;
    this.#missing = total;
    this.#values = new Float64Array(total * this.#kept.length).fill(Number.NaN);
    this.#starts = new Float64Array(total).fill(-1);
    this.#files = new Uint16Array(total);
    this.#algebra = new Uint8Array(total);
  }

  /** @throws UserError when some result stands in no file, though every unit is closed */
  refuseMissing(): void {
    if (this.#missing === 0) return;
    const message = `${this.#missing} of ${this.total} results are missing: the file is damaged. Begin anew by sweep --force.`;
    throw new UserError({ file: this.#paths[0], message });
  }

  numberOf(routing: number, setting: number, draw = 0): ResultNumber {
    const { plan } = this.head;
    return this.#offsets[routing] + setting * variantsOf(plan, plan.routings[routing]) + draw;
  }

  /** Results that are judged, as far as they are there: every routing at every setting, draws left out. */
  judged(): ResultNumber[] {
    return this.head.plan.routings.flatMap((_, routing) =>
      Array.from({ length: this.settings }, (_, setting) => this.numberOf(routing, setting)).filter(
        (result) => this.#starts[result] >= 0,
      ),
    );
  }

  keyOf(result: ResultNumber): { routing: number; setting: number; draw: number } {
    const { plan } = this.head;
    const routing = this.#offsets.findLastIndex((start) => start <= result);
    const variants = variantsOf(plan, plan.routings[routing]);
    const within = result - this.#offsets[routing];
    return { routing, setting: Math.floor(within / variants), draw: within % variants };
  }

  byAlgebra(result: ResultNumber): boolean {
    return this.#algebra[result] === 1;
  }

  /** A kept figure, or `widthKept`. */
  value(result: ResultNumber, name: string): Figure {
    if (name === widthKept) return this.#widthKept(result);
    const value = this.#values[result * this.#kept.length + this.#kept.indexOf(name)];
    return Number.isNaN(value) ? null : value;
  }

  /** Takes in what a setting that was rendered by itself gave. */
  addRendered(setting: number, routing: string, figures: readonly Figure[]): void {
    this.rendered.set(this.numberOf(this.head.plan.routings.indexOf(routing), setting), figures);
  }

  /** Reads results back, each from its file; `visit` gets all figures, in the order of the head's names. */
  read(
    results: Iterable<ResultNumber>,
    visit: (result: ResultNumber, figures: readonly Figure[]) => void,
  ): void {
    this.readTexts(results, (result, text) => visit(result, figuresIn(text)));
  }

  /** The same, with the figures as the text of a JSON list: for those who only write them on. */
  readTexts(results: Iterable<ResultNumber>, visit: (result: ResultNumber, figures: string) => void): void {
    const open = this.#paths.map((path) => {
      try {
        return openSync(path, "r");
      } catch (error) {
        throw fileFault(error, path, "read");
      }
    });
    try {
      const piece = Buffer.alloc(1 << 16);
      for (const result of results) {
        if (this.#starts[result] < 0) continue;
        const count = readSync(open[this.#files[result]], piece, 0, piece.length, this.#starts[result]);
        visit(result, figuresText(piece.subarray(0, piece.subarray(0, count).indexOf(10))));
      }
    } finally {
      for (const file of open) closeSync(file);
    }
  }

  /** Side share over that of the reference at the same setting; null where there is none to compare with. */
  #widthKept(result: ResultNumber): Figure {
    const { routings, reference } = this.head.plan;
    if (reference === null) return null;
    const share = this.value(result, "sideShare");
    const whole = this.value(
      this.numberOf(routings.indexOf(reference), this.keyOf(result).setting),
      "sideShare",
    );
    return widthKeptMeasure.value({ sideShare: share }, { sideShare: whole });
  }

  async #read(path: string, file: number, pause: ReturnType<typeof pauses>): Promise<void> {
    const { plan, figureNames } = this.head;
    const kept = this.#kept.map((name, k) => ({ place: figureNames.indexOf(name), k }));
    const picked = kept.filter(({ place }) => place >= 0).sort((a, b) => a.place - b.place);
    const places = picked.map(({ place }) => place);
    const routings = new Map(plan.routings.map((routing, n) => [routing, n]));
    for (const { entry, start, bytes } of entriesOf(path)) {
      const due = pause();
      if (due) await due;
      if (entry.kind === "unit") continue;
      if (entry.kind === "rendered") {
        this.addRendered(entry.setting, entry.routing, figuresIn(figuresText(bytes)));
        continue;
      }
      const { setting, draw, by } = entry.key;
      const routing = routings.get(entry.key.routing);
      const result = routing === undefined ? -1 : this.numberOf(routing, setting, draw);
      if (!(result >= 0 && result < this.total)) continue;
      if (this.#starts[result] < 0) this.#missing--;
      this.#starts[result] = start;
      this.#files[result] = file;
      this.#algebra[result] = by === "algebra" ? 1 : 0;
      pickFigures(bytes, places, (n, figure) => {
        this.#values[result * kept.length + picked[n].k] = figure;
      });
    }
  }
}
