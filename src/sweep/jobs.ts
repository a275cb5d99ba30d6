import { initialiseFft } from "../dsp/fft.js";
import { UserError } from "../userError.js";
import { type MixUnitJob, mixUnit } from "./mixUnit.js";
import type { Products } from "./products.js";
import { type RenderBlockJob, renderBlock } from "./renderBlock.js";
import { type RenderSettingJob, renderSetting } from "./renderSetting.js";
import { renderedLine, resultLine } from "./resultsFile.js";

/** Work that any thread can do for a sweep. */
export type SweepJob =
  | { readonly kind: "block"; readonly job: RenderBlockJob }
  | { readonly kind: "mix"; readonly job: MixUnitJob }
  | { readonly kind: "setting"; readonly job: RenderSettingJob };

/** What came of it; errors lose their fields between threads, so they travel as data. */
export type SweepOutcome =
  | { readonly kind: "block"; readonly products: readonly Products[] }
  /** Lines of the results file, and how many there are. */
  | { readonly kind: "lines"; readonly lines: string; readonly count: number }
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
    if (kind === "setting") {
      const { setting, routing } = job;
      return { kind: "lines", lines: renderedLine(setting, routing, renderSetting(job)), count: 1 };
    }
    const by = job.unit.block.family.rendered ? "rendering" : "algebra";
    const results = mixUnit(job);
    const lines = results.map(({ figures, ...key }) => resultLine({ ...key, by }, figures)).join("");
    return { kind: "lines", lines, count: results.length };
  } catch (error) {
    if (!(error instanceof UserError)) throw error;
    return { kind: "fault", faults: error.faults, exitStatus: error.exitStatus };
  }
}
