import { initialiseFft } from "../../sound/dsp/fft.js";
import { UserError } from "../../text/userError.js";
import { type MixUnitJob, mixUnit } from "../../work/sweep/mixUnit.js";
import type { Products } from "../../work/sweep/products.js";
import { type RenderBlockJob, renderBlock } from "../../work/sweep/renderBlock.js";
import {
  type RenderedSetting,
  type RenderFiguresJob,
  renderFigures,
} from "../../work/sweep/renderFigures.js";
import { resultLine } from "./resultsFile.js";

/** Work that any thread can do for a sweep. */
export type SweepJob =
  | {
      readonly kind: "block";
      readonly job: RenderBlockJob;
      /** `progress[slot]` is told the frames done. */
      readonly progress: Int32Array;
      readonly slot: number;
    }
  | { readonly kind: "mix"; readonly job: MixUnitJob & { readonly room: Uint8Array } }
  | { readonly kind: "renders"; readonly job: RenderFiguresJob };

/** What came of it; errors lose their fields between threads, so they travel as data. */
export type SweepOutcome =
  | { readonly kind: "block"; readonly products: readonly Products[] }
  /** Bytes of lines for the results file that the job's `room` now holds. */
  | { readonly kind: "lines"; readonly bytes: number }
  | { readonly kind: "renders"; readonly rendered: readonly RenderedSetting[] }
  | {
      readonly kind: "fault";
      readonly faults: UserError["faults"];
      readonly exitStatus: UserError["exitStatus"];
    };

/** Does one job in the thread it is called in. Bugs are thrown on. */
export async function doSweepJob(asked: SweepJob): Promise<SweepOutcome> {
  try {
    await initialiseFft();
    if (asked.kind === "block") {
      const { job, progress, slot } = asked;
      const onFrames = (frames: number) => {
        progress[slot] += frames;
      };
      return { kind: "block", products: renderBlock(job, onFrames) };
    }
    if (asked.kind === "renders") return { kind: "renders", rendered: renderFigures(asked.job) };
    const { job } = asked;
    const by = job.unit.block.family.rendered ? "rendering" : "algebra";
    const room = Buffer.from(job.room.buffer, job.room.byteOffset, job.room.byteLength);
    let bytes = 0;
    for (const { figures, ...key } of mixUnit(job))
      bytes += room.write(resultLine({ ...key, by }, figures), bytes);
    return { kind: "lines", bytes };
  } catch (error) {
    if (!(error instanceof UserError)) throw error;
    return { kind: "fault", faults: error.faults, exitStatus: error.exitStatus };
  }
}
