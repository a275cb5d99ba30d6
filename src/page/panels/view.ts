import type { RigFault } from "../../rig/file/faults.js";
import type { BuildSheet } from "../../rig/wiring/buildSheet.js";
import { dryId } from "../../rig/wiring/dryWiring.js";
import type { Heard } from "../../words/replyWords.js";
import type { Report, RoutingReport } from "../../work/compare/report.js";
import type { Bench, BenchChange } from "../contract/bench.js";
import type { PageData } from "../contract/pageData.js";
import type { Child } from "../widgets/dom.js";

/** What every panel is given. */
export interface View {
  readonly bench: Bench;
  readonly data: PageData;
  /** The element that the whole page is drawn into. */
  readonly root: HTMLElement;
  readonly stage: SoloStage;
  /** What the person has listened to. */
  readonly listening: Listening;
  /** Goes to where a fault of a drawing is mended, if it is one; set by the part that draws, null where there is none. */
  goToDrawing: ((fault: RigFault) => boolean) | null;
  /** Tells a listener to the screen one sentence, when there is time. */
  say(sentence: string): void;
}

/** A panel of the page, without its heading. */
export interface Panel {
  readonly children: readonly Child[];
  /** Is told what changed; touches only what that concerns. */
  update(change: BenchChange): void;
  /** Takes in a file that was dropped on the page. @returns whether it is one of its kind */
  receive?(file: File): boolean;
}

/** A piece of the page. */
export interface PagePart {
  readonly node: HTMLElement;
  update(change: BenchChange): void;
}

/** What has the page for itself while it runs: it alone hears of changes and of digit keys. */
export interface Soloist extends PagePart {
  chooseKey(digit: string): void;
}

/** Where either all panels are or one soloist. */
export interface SoloStage {
  /** Null while all panels are there. */
  readonly soloist: Soloist | null;
  enter(soloist: Soloist): void;
  leave(): void;
}

/** What was listened to since the page opened. */
export interface Listening {
  /** Choices that sounded, each once, in the order in which they were heard. */
  readonly heard: readonly Heard[];
  /** What came of blind trials, in sentences. */
  readonly trials: readonly string[];
  /** Whether this choice sounded, in a trial or out of it. */
  knows(id: string): boolean;
  /** A trial came to its end. @param ids  of what sounded in it */
  tried(words: readonly string[], ids: readonly string[]): void;
}

/** The figures that are shown. @throws Error where there are none: no panel that shows any is then open */
export function reportOf({ bench }: Pick<View, "bench">): Report {
  if (!bench.report) throw new Error("there is no report");
  return bench.report;
}

export const routingOf = (view: Pick<View, "bench">, id: string): RoutingReport | undefined =>
  view.bench.report?.routings.find((routing) => routing.id === id);

const dryName = "Dry take";

/** What a choice of the player is called. */
export const nameOf = (view: Pick<View, "bench">, id: string): string =>
  id === dryId ? dryName : (routingOf(view, id)?.label ?? id);

export type BuildableRouting = RoutingReport & { readonly build: BuildSheet };

/** Routings that can be wired with this rig. */
export const buildable = (view: View): readonly BuildableRouting[] =>
  reportOf(view).routings.filter((routing): routing is BuildableRouting => routing.build !== null);
