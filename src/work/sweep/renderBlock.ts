import type { Rig } from "../../rig/model/rig.js";
import type { HeldTake } from "../../sound/audio/takeSource.js";
import type { CompileOptions } from "../render/compile.js";
import { render } from "../render/render.js";
import { noTail } from "../render/tail.js";
import { BlockStems } from "./blockStems.js";
import { GridRigs } from "./gridRigs.js";
import type { SweepPlan } from "./plan.js";
import type { Products } from "./products.js";
import { StemMeter } from "./stemMeter.js";
import type { SweepBlock } from "./sweepLayout.js";

/** What a thread must know of a sweep, whatever it does for it. Plain data; the sound is on shared memory. */
export interface SweepInputs {
  readonly rig: Rig;
  readonly plan: SweepPlan;
  readonly take: HeldTake;
  readonly rateHz: number;
  readonly clips: NonNullable<CompileOptions["clips"]>;
}

export interface RenderBlockJob extends SweepInputs {
  readonly block: SweepBlock;
}

/**
 * Renders the stems of a block, all in one graph, and gives their inner products: one entry a track.
 * @param onFrames  told of frames as they are done
 */
export function renderBlock(
  { rig, plan, take, rateHz, clips, block }: RenderBlockJob,
  onFrames: (frames: number) => void = () => {},
): Products[] {
  const stems = new BlockStems(plan, block, new GridRigs(rig, plan), { rateHz, clips });
  const meter = new StemMeter(rateHz, stems.groups);
  render(stems.graph(), {
    take,
    rateHz,
    ...exactly(plan.frames),
    sink: (outputs, frames) => {
      meter.push(outputs, frames);
      onFrames(frames);
    },
  });
  return meter.result();
}

/** Render options that give a length fixed beforehand, whatever the tail does. */
export const exactly = (frames: number) => ({
  tail: noTail,
  watched: 0,
  agree: () => frames,
});
