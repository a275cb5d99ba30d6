import type { RigText } from "../../rig/file/rigText.js";
import type { Report } from "../../work/compare/report.js";
import type { PageSweep } from "../../work/sweep/pageSweep.js";

/** How much of the page is shown: what a player needs, or all of the bench. */
export type Extent = "short" | "everything";

/** What holds over all takes of a comparison. */
export interface OverTakes {
  /** The wiring to build; null where none can be chosen. */
  readonly plan: string | null;
  /** In sentences. */
  readonly says: readonly string[];
  /** The one of those that tells of the next best; null where there is none. */
  readonly next: string | null;
}

/** What `compare` puts into the page for the eye, besides take, rig and engine. Plain JSON. */
export interface PageData {
  /** The report of the run that wrote the page: shown until the page's own first render is done. Null without a run. */
  readonly report: Report | null;
  /** How much of the page is shown where nobody has said otherwise. */
  readonly opensOn: Extent;
  /** Where several takes were compared: what holds over all of them. */
  readonly overTakes?: OverTakes;
  /** Rigs to begin from. */
  readonly examples?: readonly RigText[];
  /** The sweep that the page was made with. */
  readonly sweep?: PageSweep;
}
