import type { Rig } from "../../rig/model/rig.js";
import type { CompileOptions } from "../render/compile.js";
import { render } from "../render/render.js";
import { BlockStems } from "./blockStems.js";
import type { SweepBlock } from "./layout.js";
import type { SweepPlan } from "./plan.js";
import type { Products } from "./products.js";
import { StemMeter } from "./stemMeter.js";
import { Tuner } from "./tuner.js";

/** What a thread must know of a sweep, whatever it does for it. Plain data; the sound is on shared memory. */
export interface SweepInputs {
  readonly rig: Rig;
  readonly plan: SweepPlan;
  readonly take: Float32Array;
  readonly rateHz: number;
  readonly clips: NonNullable<CompileOptions["clips"]>;
}

export interface RenderBlockJob extends SweepInputs {
  readonly block: SweepBlock;
  /** `progress[slot]` is told the frames done. */
  readonly progress?: Int32Array;
  readonly slot?: number;
}

/** Renders the stems of a block, all in one graph, and gives their inner products: one entry a track. */
export function renderBlock(job: RenderBlockJob): Products[] {
  const { rig, plan, take, rateHz, clips, block, progress, slot = 0 } = job;
  const stems = new BlockStems(plan, block, new Tuner(rig, plan), { rateHz, clips });
  const meter = new StemMeter(rateHz, stems.groups);
  render(stems.graph(), {
    take,
    rateHz,
    ...exactly(plan.frames),
    sink: (outputs, frames) => {
      meter.push(outputs, frames);
      if (progress) progress[slot] += frames;
    },
  });
  return meter.result();
}

/** Render options that give a length fixed beforehand, whatever the tail does. */
export const exactly = (frames: number) => ({
  tail: { dropDb: 60, capSeconds: 0, silenceSeconds: 0 },
  watched: 0,
  agree: () => frames,
});
