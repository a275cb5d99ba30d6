import type { Routing } from "../../../rig/routings/routing.js";
import { foundOf, plansOf, sharesOf, wiringsOf } from "../../../work/switches/plans.js";
import type { RoutingSwitches } from "../../../work/switches/switchTypes.js";
import type { Engine } from "./engine.js";
import { leastOf } from "./leastOf.js";
import type { RenderState } from "./renderState.js";

export interface SwitchStatesRequest extends Pick<RenderState, "take" | "clips"> {
  readonly routings: readonly Routing[];
  readonly signal: AbortSignal;
  readonly onProgress: (done: number, what: string) => void;
}

/**
 * Every state of the footswitches of these routings, rendered over the take on all workers, and every press between two
 * of them: what `switches` finds, by the same passes.
 * @throws what `signal` was aborted with
 */
export async function switchStates(
  engine: Pick<Engine, "count" | "states">,
  { routings, take, clips, signal, onProgress }: SwitchStatesRequest,
): Promise<readonly RoutingSwitches[]> {
  const plans = plansOf(routings, "usual");
  const shares = sharesOf(plans, engine.count);
  const total = plans.reduce((sum, { renditions }) => sum + renditions.length, 0);
  const { samples, rateHz } = take;
  const onFrames = leastOf(shares.length, (done) =>
    onProgress(Math.min(1, done / samples.length), `rendering ${total} states`),
  );
  const levels = await Promise.all(
    shares.map(async (share, n) => {
      const job = { kind: "states", wirings: wiringsOf(share), take: samples, rateHz, clips } as const;
      const states = await engine.states(job, { signal, onFrames: onFrames[n] });
      onFrames[n](samples.length);
      return states;
    }),
  );
  return foundOf(plans, shares, levels);
}
