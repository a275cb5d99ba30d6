import { count } from "../../../text/numbers.js";
import type { PageSweep } from "../../../work/sweep/pageSweep.js";
import { type Attributes, el, newId, setText } from "../../widgets/dom.js";
import { routingMark } from "../../widgets/routingMark.js";
import { button, section } from "../../widgets/section.js";
import { checkBox, type Slider, slider } from "../../widgets/slider.js";
import { swatch } from "../../widgets/swatch.js";
import { nameOf, type Panel, type View } from "../view.js";
import { type HeatAxes, knobTitles, sweepHeat } from "./sweepHeat.js";
import { figureWords, measureTitle, type SweepPoint, settingsWords, valueText } from "./sweepPoints.js";
import { sweepScatter } from "./sweepScatter.js";
import type { SweepPlotActs } from "./sweepState.js";
import { sweepState } from "./sweepState.js";

/** What a sweep found: its settings as marks and as cells, read by pointer or keys, and heard by a click or Enter. */
export function sweepPanel(view: View, sweep: PageSweep): Panel {
  const state = sweepState(sweep);
  const acts: SweepPlotActs = {
    read: (point) => read(point),
    hear: (point) => {
      read(point);
      hear(view, point);
    },
    nameOf: (routing) => nameOf(view, routing),
  };
  const axes = usualAxes(sweep);
  const plots = [sweepScatter(state, acts), sweepHeat(state, axes, acts)];
  const reading = el("p", { class: "reading" });
  const walk = slider({
    label: "Settings in sight, along the level axis",
    min: 0,
    max: 0,
    step: 1,
    words: (n) => `${n + 1} of ${state.inSight().length}`,
    spoken: (n) => (state.inSight()[n] ? pointWords(view, state.inSight()[n], [state.y, state.x]) : "none"),
    onInput: (n) => {
      const point = state.inSight()[n];
      if (point) read(point);
    },
  });
  const knobs = sweep.vary.map((_, group) => knobSlider(group));
  const heard = button("Set the rig to it", () => hear(view, state.cursor), "strong");
  const controls = el(
    "div",
    { class: "sweep-controls" },
    measureChoice("Upright, and colour", state.y, (measure) => {
      state.y = measure;
    }),
    measureChoice("Level", state.x, (measure) => {
      state.x = measure;
    }),
    routingChoice(),
    axisChoices(),
    frontBox(),
  );
  const reader = el(
    "div",
    { class: "reader" },
    el("h3", {}, "The setting that is read"),
    reading,
    walk.node,
    ...knobs.map(({ node }) => node),
    el("p", {}, heard),
  );
  for (const { input } of [walk, ...knobs]) {
    input.addEventListener("keydown", (event) => {
      if (event.key !== "Enter") return;
      event.preventDefault();
      hear(view, state.cursor);
    });
  }

  function read(point: SweepPoint): void {
    if (point === state.cursor) return;
    state.cursor = point;
    show();
    for (const plot of plots) plot.point();
  }
  function show(): void {
    const shown = [state.y, state.x, ...sweep.aims.map(({ measure }) => measure)];
    setText(reading, `${pointWords(view, state.cursor, [...new Set(shown)])}.`);
    const inSight = state.inSight();
    walk.input.max = String(Math.max(0, inSight.length - 1));
    walk.set(Math.max(0, inSight.indexOf(state.cursor)));
    knobs.forEach((knob, group) => {
      knob.set(state.cursor.steps[group]);
    });
  }
  function redraw(): void {
    const inSight = state.inSight();
    const [first] = [...inSight].sort((a, b) => a.rank - b.rank);
    if (first && !inSight.includes(state.cursor)) state.cursor = first;
    show();
    for (const plot of plots) plot.update();
  }
  function knobSlider(group: number): Slider {
    const { values } = sweep.vary[group][0];
    return slider({
      label: knobTitles(state, group),
      min: 0,
      max: values.length - 1,
      step: 1,
      words: (step) => valueText(values[step]),
      onInput: (step) => {
        const steps = state.cursor.steps.map((old, g) => (g === group ? step : old));
        read(state.nearest(state.cursor.routing, steps));
      },
    });
  }
  function measureChoice(label: string, now: string, set: (measure: string) => void): HTMLElement {
    const options = Object.keys(sweep.figures).map((name) => [name, measureTitle(name)] as const);
    return picker(label, options, now, (value) => {
      set(value);
      redraw();
    });
  }
  function routingChoice(): HTMLElement {
    const options = sweep.routings.map((id) => [id, nameOf(view, id)] as const);
    return picker("Routing", [["", "all"], ...options], "", (value) => {
      state.routing = value === "" ? null : value;
      redraw();
    });
  }
  function axisChoices(): HTMLElement | null {
    const turned = sweep.vary.flatMap((group, g) => ((group[0]?.values.length ?? 1) > 1 ? [g] : []));
    if (turned.length < 3) return null;
    const pairs = turned.flatMap((across) => turned.filter((up) => up !== across).map((up) => [across, up]));
    const options = pairs.map(
      ([across, up]) =>
        [`${across} ${up}`, `${knobTitles(state, across)} by ${knobTitles(state, up)}`] as const,
    );
    return picker("Knobs of the cells", options, `${axes.across} ${axes.up}`, (value) => {
      const [across, up] = value.split(" ").map(Number);
      axes.across = across;
      axes.up = up;
      redraw();
    });
  }
  function frontBox(): HTMLElement {
    return checkBox("The front alone", (on) => {
      state.frontOnly = on;
      redraw();
    }).node;
  }

  redraw();
  return {
    node: section(
      "sweep",
      "Sweep",
      el("p", { class: "lead" }, leadWords(sweep, state.points.length)),
      controls,
      el(
        "ul",
        { class: "sweep-routings" },
        ...sweep.routings.map((id) =>
          el("li", {}, swatch(routingMark(id, sweep.routings)), nameOf(view, id)),
        ),
      ),
      el("div", { class: "plots" }, plots[0].node, reader, plots[1].node),
    ),
    update() {},
  };
}

/** Most steps across, so that cells are wide; the next most upright. */
function usualAxes(sweep: PageSweep): HeatAxes {
  const steps = (g: number) => sweep.vary[g][0]?.values.length ?? 1;
  const [across, up] = sweep.vary.map((_, g) => g).sort((a, b) => steps(b) - steps(a) || a - b);
  return { across: across ?? 0, up: up !== undefined && steps(up) > 1 ? up : null };
}

function hear({ bench, say, ...rest }: View, point: SweepPoint): void {
  bench.setKnobs(point.settings);
  if (bench.player.choices.includes(point.routing)) bench.player.choose(point.routing);
  say(
    `The rig is set to ${settingsWords(point)}; ${nameOf({ bench, say, ...rest }, point.routing)} is heard.`,
  );
}

function pointWords(view: View, point: SweepPoint, measures: readonly string[]): string {
  const notes = [
    ...(point.front ? ["on the front"] : []),
    ...(point.meets === false ? ["misses a wish"] : []),
  ];
  return [
    `Rank ${point.rank}, setting ${point.setting} of ${nameOf(view, point.routing)}: ${settingsWords(point)}`,
    measures.map((measure) => figureWords(point, measure)).join(", "),
    ...notes,
  ].join("; ");
}

function leadWords(sweep: PageSweep, points: number): string {
  const { settings, routings, results, want } = sweep;
  const of = `${count(settings, "setting")} by ${count(routings.length, "routing")}`;
  const wishes = want.length === 0 ? "" : ` Wished: ${want.join(", ")}.`;
  const cut =
    points < results
      ? ` Of ${results} results ${points} travel in this page: a coarser grid, and besides it the best and the front. sweep.csv has all.`
      : "";
  return `${of}, as they were swept on the take that the page was made with.${wishes}${cut} Point to a setting to read it; click it, or press Enter, and the rig is set to it and heard.`;
}

function picker(
  label: string,
  options: readonly (readonly [value: string, words: string])[],
  now: string,
  onChoose: (value: string) => void,
): HTMLElement {
  const id = newId("sweep");
  const chosen = (value: string): Attributes => ({ value, selected: value === now });
  const list = el("select", { id }, ...options.map(([value, words]) => el("option", chosen(value), words)));
  list.addEventListener("change", () => onChoose(list.value));
  return el("p", {}, el("label", { for: id }, label), " ", list);
}
