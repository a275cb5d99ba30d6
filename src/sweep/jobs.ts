import { initialiseFft } from "../dsp/fft.js";
import { UserError } from "../userError.js";
import { type MixUnitJob, mixUnit } from "./mixUnit.js";
import type { Products } from "./products.js";
import { type RenderBlockJob, renderBlock } from "./renderBlock.js";
import { type RenderPeaksJob, renderPeaks, type SettingPeaks } from "./renderPeaks.js";
import { resultLine } from "./resultsFile.js";

/** Work that any thread can do for a sweep. */
export type SweepJob =
  | { readonly kind: "block"; readonly job: RenderBlockJob }
  | { readonly kind: "mix"; readonly job: MixUnitJob }
  | { readonly kind: "peaks"; readonly job: RenderPeaksJob };

/** What came of it; errors lose their fields between threads, so they travel as data. */
export type SweepOutcome =
  | { readonly kind: "block"; readonly products: readonly Products[] }
  /** Lines of the results file. */
  | { readonly kind: "lines"; readonly lines: string }
  | { readonly kind: "peaks"; readonly peaks: readonly SettingPeaks[] }
  | {
      readonly kind: "fault";
      readonly faults: UserError["faults"];
      readonly exitStatus: UserError["exitStatus"];
    };

/** Does one job in the thread it is called in. Bugs are thrown on. */
export async function doSweepJob({ kind, job }: SweepJob): Promise<SweepOutcome> {
  try {
    await initialiseFft();
    if (kind === "block") return { kind: "block", products: renderBlock(job) };
    if (kind === "peaks") return { kind: "peaks", peaks: renderPeaks(job) };
    const by = job.unit.block.family.rendered ? "rendering" : "algebra";
    const results = mixUnit(job);
    const lines = results.map(({ figures, ...key }) => resultLine({ ...key, by }, figures)).join("");
    return { kind: "lines", lines };
  } catch (error) {
    if (!(error instanceof UserError)) throw error;
    return { kind: "fault", faults: error.faults, exitStatus: error.exitStatus };
  }
}
