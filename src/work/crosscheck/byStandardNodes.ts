import type { Wiring } from "../../rig/wiring/wiring.js";
import { channelsOf, type HeldTake } from "../../sound/audio/takeSource.js";
import type { Block } from "../../sound/dsp/kernel.js";
import type { OpenOffline } from "../../sound/standard/loop.js";
import { played } from "../../sound/standard/nodes.js";
import { type BuildUse, buildWiring, builtChannels } from "./buildWiring.js";

/** What `buildWiring` gives of a take, rendered: left and right, then what each effect that is handed over would hear. */
export async function byStandardNodes(
  wiring: Wiring,
  take: HeldTake,
  rateHz: number,
  use: BuildUse & { readonly openContext: OpenOffline },
): Promise<Block> {
  const channels = builtChannels(wiring, use);
  const context = use.openContext(channels, use.frames, rateHz);
  const sources = channelsOf(take).map((samples) => played(context, samples));
  buildWiring(context, wiring, sources, use).connect(context.destination);
  const sound = await context.startRendering();
  return Array.from({ length: channels }, (_, n) => sound.getChannelData(n));
}
