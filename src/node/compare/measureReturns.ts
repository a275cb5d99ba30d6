import type { Rig } from "../../rig/model/rig.js";
import type { RoutingChoice } from "../../rig/routings/chooseRoutings.js";
import { leavesReturnsOpen, redrawn } from "../../work/returns/measuredReturns.js";
import type { RenderJob } from "./renderJobs.js";
import type { Threads } from "./threads.js";

export interface ReturnsOptions extends Pick<RenderJob, "take" | "rateHz" | "clips"> {
  readonly tailSeconds: number;
  readonly onProgress?: (done: number, what: string) => void;
}

/** A rig whose open returns are measured, and its routings drawn anew with them. */
export interface MeasuredRig {
  readonly rig: Rig;
  readonly choice: RoutingChoice;
}

/**
 * Measures every return of the chosen routings whose level the rig leaves open, a thread a share of the plans, and draws
 * the routings with what was found.
 * @throws UserError for what a person can mend
 */
export async function measureReturns(
  rig: Rig,
  choice: RoutingChoice,
  { onProgress = () => {}, take, ...sound }: ReturnsOptions,
  threads: Threads,
): Promise<MeasuredRig> {
  if (!leavesReturnsOpen(rig, choice.routings)) return { rig, choice };
  const plans = choice.routings.flatMap((routing) => (leavesReturnsOpen(rig, [routing]) ? [routing.id] : []));
  const shares = Array.from({ length: Math.min(threads.count, plans.length) }, (_, part) =>
    plans.filter((_plan, n) => n % threads.count === part),
  );
  const progress = new Int32Array(new SharedArrayBuffer(4 * shares.length));
  const tell = () => {
    onProgress(Math.min(...progress) / Math.max(1, take.length), "measuring returns");
  };
  const timer = setInterval(tell, 100);
  try {
    const outcomes = await Promise.all(
      shares.map((share, part) =>
        threads.run({
          kind: "returns",
          job: { rig, plans: share, take, ...sound },
          share: { part, progress },
        }),
      ),
    );
    return redrawn(
      { ...rig, returnTrims: Object.assign({}, ...outcomes.map(({ returns }) => returns)) },
      choice,
    );
  } finally {
    clearInterval(timer);
  }
}
