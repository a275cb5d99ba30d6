import type { PageSweep } from "../../../work/sweep/pageSweep.js";
import { el } from "../../widgets/dom.js";
import { routingMark } from "../../widgets/routingMark.js";
import { swatch } from "../../widgets/swatch.js";
import { nameOf, type Panel, type View } from "../view.js";
import { settingsWords } from "./knobNames.js";
import { leadWords } from "./pointWords.js";
import { sweepControls } from "./sweepControls.js";
import { SweepHeat } from "./sweepHeat.js";
import type { SweepActions, SweepPlot } from "./sweepPlot.js";
import type { SweepPoint } from "./sweepPoints.js";
import { SweepReader } from "./sweepReader.js";
import { SweepScatter } from "./sweepScatter.js";
import { SweepState } from "./sweepState.js";

/** What a sweep found: its settings as marks and as cells, read by pointer or keys, and heard by a click or Enter. */
export class SweepPanel implements Panel, SweepActions {
  readonly children: readonly HTMLElement[];
  readonly #view: View;
  readonly #state: SweepState;
  readonly #scatter: SweepPlot;
  readonly #heat: SweepPlot;
  readonly #reader: SweepReader;

  constructor(view: View, sweep: PageSweep) {
    this.#view = view;
    this.#state = new SweepState(sweep);
    this.#scatter = new SweepScatter(this.#state, this);
    this.#heat = new SweepHeat(this.#state, this);
    this.#reader = new SweepReader(this.#state, this);
    this.#redraw();
    this.children = [
      el("p", { class: "lead" }, leadWords(sweep, this.#state.points.length)),
      sweepControls(this.#state, this, () => this.#redraw()),
      this.#routings(),
      el("div", { class: "plots" }, this.#scatter.node, this.#reader.node, this.#heat.node),
    ];
  }

  /** A sweep stays as it was made. */
  update(): void {}

  readonly nameOf = (routing: string): string => nameOf(this.#view, routing);

  readonly read = (point: SweepPoint): void => {
    if (point === this.#state.cursor) return;
    this.#state.cursor = point;
    this.#reader.update();
    this.#scatter.showCursor();
    this.#heat.showCursor();
  };

  readonly hear = (point: SweepPoint): void => {
    const { bench, say } = this.#view;
    this.read(point);
    bench.setKnobs(point.settings);
    if (bench.player.choices.includes(point.routing)) bench.player.choose(point.routing);
    say(`The rig is set to ${settingsWords(point)}; ${this.nameOf(point.routing)} is heard.`);
  };

  /** After a change of what is in sight. */
  #redraw(): void {
    const inSight = this.#state.inSight();
    const [first] = [...inSight].sort((a, b) => a.rank - b.rank);
    if (first && !inSight.includes(this.#state.cursor)) this.#state.cursor = first;
    this.#reader.update();
    this.#scatter.update();
    this.#heat.update();
  }

  /** The marks of the routings. */
  #routings(): HTMLElement {
    const { routings } = this.#state.sweep;
    const items = routings.map((id) => el("li", {}, swatch(routingMark(id, routings)), this.nameOf(id)));
    return el("ul", { class: "sweep-routings" }, ...items);
  }
}
