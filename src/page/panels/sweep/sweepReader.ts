import { stepsOf } from "../../../work/sweep/grid.js";
import { button } from "../../widgets/button.js";
import { el, setText } from "../../widgets/dom.js";
import { Slider } from "../../widgets/slider.js";
import { groupTitle, stepText } from "./knobNames.js";
import { pointWords } from "./pointWords.js";
import type { SweepActions } from "./sweepPlot.js";
import type { SweepState } from "./sweepState.js";

/** The setting that is read, in words, and the ways to another by keys: along the axis across, or knob by knob. */
export class SweepReader {
  readonly node: HTMLElement;
  readonly #state: SweepState;
  readonly #actions: SweepActions;
  readonly #reading = el("p", { class: "reading" });
  readonly #walk: Slider;
  readonly #knobs: readonly Slider[];

  constructor(state: SweepState, actions: SweepActions) {
    this.#state = state;
    this.#actions = actions;
    this.#walk = this.#walkSlider();
    this.#knobs = state.sweep.vary.map((_, group) => this.#knobSlider(group));
    for (const { input } of [this.#walk, ...this.#knobs]) {
      input.addEventListener("keydown", (event) => {
        if (event.key !== "Enter") return;
        event.preventDefault();
        actions.hear(state.cursor);
      });
    }
    this.node = el(
      "div",
      { class: "reader" },
      el("h3", {}, "The setting that is read"),
      this.#reading,
      this.#walk.node,
      ...this.#knobs.map(({ node }) => node),
      el(
        "p",
        {},
        button("Set the rig to it", () => actions.hear(state.cursor), "strong"),
      ),
    );
  }

  update(): void {
    const { cursor, x, y, sweep } = this.#state;
    const inSight = this.#state.inSight();
    const measures = new Set([y, x, ...sweep.aims.map(({ measure }) => measure)]);
    setText(this.#reading, `${pointWords(cursor, [...measures], this.#actions)}.`);
    this.#walk.input.max = String(Math.max(0, inSight.length - 1));
    this.#walk.set(Math.max(0, inSight.indexOf(cursor)));
    this.#knobs.forEach((knob, group) => {
      knob.set(cursor.steps[group]);
    });
  }

  #walkSlider(): Slider {
    const state = this.#state;
    const actions = this.#actions;
    return new Slider({
      label: "Settings in sight, along the axis across",
      min: 0,
      max: 0,
      step: 1,
      words: (n) => `${n + 1} of ${state.inSight().length}`,
      spoken: (n) => {
        const point = state.inSight()[n];
        return point ? pointWords(point, [state.y, state.x], actions) : "none";
      },
      onInput: (n) => {
        const point = state.inSight()[n];
        if (point) actions.read(point);
      },
    });
  }

  #knobSlider(group: number): Slider {
    const state = this.#state;
    const { sweep } = state;
    return new Slider({
      label: groupTitle(sweep, group),
      min: 0,
      max: stepsOf(sweep.vary[group]) - 1,
      step: 1,
      words: (step) => stepText(sweep, group, step),
      onInput: (step) => {
        const steps = state.cursor.steps.map((old, g) => (g === group ? step : old));
        this.#actions.read(state.nearest(state.cursor.routing, steps));
      },
    });
  }
}
