import type { Rig } from "../../rig/model/rig.js";
import { chooseRoutings } from "../../rig/routings/chooseRoutings.js";
import type { Routing } from "../../rig/routings/routing.js";
import type { HeldTake } from "../../sound/audio/takeSource.js";
import { usualTailSeconds } from "../../work/render/tail.js";
import { measureReturns } from "../compare/measureReturns.js";
import { openThreads } from "../compare/threads.js";
import { loadClips } from "../rig/rigClips.js";

/**
 * The routings that were asked for, their open returns measured on the take as a comparison measures them.
 * @param words  of the routings wanted; null for all
 * @throws UserError
 */
export async function measuredRoutings(
  { rig, rigFile, take }: { rig: Rig; rigFile: string | null; take: { samples: HeldTake; rateHz: number } },
  words: readonly string[] | null,
): Promise<readonly Routing[]> {
  const choice = chooseRoutings(rig, words, null);
  const clips = await loadClips(rig, rigFile, take.rateHz);
  const threads = openThreads();
  try {
    const sound = { take: take.samples, rateHz: take.rateHz, clips, tailSeconds: usualTailSeconds };
    return (await measureReturns(rig, choice, sound, threads)).choice.routings;
  } finally {
    await threads.close();
  }
}
