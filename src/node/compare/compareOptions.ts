import type { OverTakes } from "../../page/contract/pageData.js";
import type { RigText } from "../../rig/file/rigText.js";
import type { Rig } from "../../rig/model/rig.js";
import type { MorePlans } from "../../rig/routings/chooseRoutings.js";
import type { Take } from "../../sound/audio/take.js";
import type { ReelSpan } from "../../work/compare/reel.js";
import type { Report } from "../../work/compare/report.js";
import type { RecordingWord } from "../../work/recordings/recording.js";
import type { PageSweep } from "../../work/sweep/pageSweep.js";
import type { LongTake } from "../audio/readTake.js";
import type { Timings } from "../threads/stopwatch.js";
import type { Threads } from "./threads.js";

export interface CompareOptions {
  readonly rig: Rig;
  /** Where the rig stands, for files that it names; null when it came from elsewhere. */
  readonly rigFile: string | null;
  /** The text of that file, for the page, which lets it be edited; left out: as `toYaml` writes it. */
  readonly rigText?: RigText;
  readonly take: Take | LongTake;
  readonly outDir: string;
  /** Replace a folder that an earlier comparison wrote. */
  readonly force: boolean;
  /** Words of the routings wanted; null for all. */
  readonly routings: readonly string[] | null;
  /** Plans beside those: how many that mix places, and one by its places. */
  readonly plans?: MorePlans;
  readonly reference: string | null;
  /** Recordings of the real rig, to stand beside the renders. */
  readonly also?: readonly RecordingWord[];
  /** The tail is cut here at the latest. */
  readonly tailSeconds: number;
  readonly bits: 16 | 24 | 32;
  /** Match all files to one loudness; else one gain for all, only as far as their peaks demand. */
  readonly match: boolean;
  /** Threads to use; unless told otherwise, one a core. 0 works in the calling thread, which hears of nothing else meanwhile. */
  readonly threads?: number;
  /** Threads that have begun already, instead; they are ended once nothing is left for them to do. */
  readonly pool?: Threads;
  /** What is written: all; all but the page; the page alone, which renders by itself; or nothing but the report. */
  readonly writes?: "all" | "sounds" | "page" | "nothing";
  /** One more file, in which all choices play one after the other. */
  readonly reel?: ReelSpan;
  /** Other takes that travel in the page, and what it says of all of them. */
  readonly pageTakes?: {
    readonly takes: readonly (Take | LongTake)[];
    readonly overTakes: (report: Report) => OverTakes;
  };
  /** To be shown in the page. */
  readonly sweep?: PageSweep;
  readonly onProgress?: (done: number, what: string) => void;
  readonly timings?: Timings;
  readonly signal?: AbortSignal;
}

/** A comparison, wherever its files go. */
export type Comparison = Omit<CompareOptions, "outDir" | "force">;
