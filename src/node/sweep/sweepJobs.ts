import { initialiseFft } from "../../sound/dsp/fft.js";
import { type MixUnitJob, mixUnit } from "../../work/sweep/mixUnit.js";
import type { Products } from "../../work/sweep/products.js";
import { type RenderBlockJob, renderBlock } from "../../work/sweep/renderBlock.js";
import {
  type RenderedSetting,
  type RenderFiguresJob,
  renderFigures,
} from "../../work/sweep/renderFigures.js";
import { stopIfTold } from "../threads/thread.js";
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

/** What came of it. */
export type SweepOutcome =
  | { readonly kind: "block"; readonly products: readonly Products[] }
  /** Bytes of lines for the results file that the job's `room` now holds. */
  | { readonly kind: "lines"; readonly bytes: number }
  | { readonly kind: "renders"; readonly rendered: readonly RenderedSetting[] };

/** Does one job in the thread it is called in. */
export async function doSweepJob(asked: SweepJob): Promise<SweepOutcome> {
  await initialiseFft();
  if (asked.kind === "block") {
    const { job, progress, slot } = asked;
    const onFrames = (frames: number) => {
      progress[slot] += frames;
      stopIfTold();
    };
    return { kind: "block", products: renderBlock(job, onFrames) };
  }
  if (asked.kind === "renders") return { kind: "renders", rendered: renderFigures(asked.job, stopIfTold) };
  const { job } = asked;
  const by = job.unit.block.family.rendered ? "rendering" : "algebra";
  const room = Buffer.from(job.room.buffer, job.room.byteOffset, job.room.byteLength);
  let bytes = 0;
  for (const { figures, ...key } of mixUnit(job, stopIfTold))
    bytes += room.write(resultLine({ ...key, by }, figures), bytes);
  return { kind: "lines", bytes };
}
