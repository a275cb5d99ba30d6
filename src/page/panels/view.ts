import type { Report, RoutingReport } from "../../work/compare/report.js";
import type { Bench, BenchChange, PageData } from "../contract/bench.js";

/** What every panel is given. */
export interface View {
  readonly bench: Bench;
  readonly data: PageData;
  /** Tells a listener to the screen one sentence, when there is time. */
  say(sentence: string): void;
  /** Routings that the plots leave out, by id. */
  readonly hidden: Set<string>;
  /** Draws the plots again after `hidden` changed. */
  redraw(): void;
}

/** A part of the page. `update` is told what changed; it touches only what that concerns. */
export interface Panel {
  readonly node: HTMLElement;
  update(change: ViewChange): void;
}
export type ViewChange = BenchChange | "hidden";

/** The figures that are shown: of the last render here, or of the run that wrote the page. */
export const reportOf = ({ bench, data }: View): Report => bench.report ?? data.report;

export const routingOf = (view: View, id: string): RoutingReport | undefined =>
  reportOf(view).routings.find((routing) => routing.id === id);

const dryName = "Dry take";

/** What a choice of the player is called. */
export const nameOf = (view: View, id: string): string =>
  id === "dry" ? dryName : (routingOf(view, id)?.label ?? id);
