import type { RigText } from "../../rig/file/rigText.js";
import type { Report } from "../../work/compare/report.js";
import type { PageSweep } from "../../work/sweep/pageSweep.js";

/** What `compare` puts into the page for the eye, besides take, rig and engine. Plain JSON. */
export interface PageData {
  /** The report of the run that wrote the page: shown until the page's own first render is done. Null without a run. */
  readonly report: Report | null;
  /** Where several takes were compared: what holds over all of them, in sentences. */
  readonly overTakes?: readonly string[];
  /** Rigs to begin from. */
  readonly examples?: readonly RigText[];
  /** The sweep that the page was made with. */
  readonly sweep?: PageSweep;
}
