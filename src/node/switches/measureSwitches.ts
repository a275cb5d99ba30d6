import type { Rig } from "../../rig/model/rig.js";
import type { Routing } from "../../rig/routings/routing.js";
import type { HeldTake } from "../../sound/audio/takeSource.js";
import type { StateChoice } from "../../work/switches/chooseStates.js";
import { foundOf, plansOf, sharesOf, wiringsOf } from "../../work/switches/plans.js";
import type { RoutingSwitches } from "../../work/switches/switchTypes.js";
import { openThreads } from "../compare/threads.js";
import { loadClips } from "../rig/rigClips.js";

export interface SwitchesOptions {
  readonly rig: Rig;
  /** Where the rig stands, for files that it names; null when it came from elsewhere. */
  readonly rigFile: string | null;
  /** On a SharedArrayBuffer, where several threads are to read it. */
  readonly take: { readonly samples: HeldTake; readonly rateHz: number };
  /** Those without a wiring are left out. */
  readonly routings: readonly Routing[];
  readonly states: StateChoice;
  readonly threads?: number;
  readonly onProgress?: (done: number, what: string) => void;
  readonly signal?: AbortSignal;
}

/**
 * Every chosen state of every routing's footswitches, rendered over the take and measured, and every press between two
 * of them with what a listener notices.
 * @throws UserError for what a person can mend; `signal.reason` when told to stop
 * @example
 * ```ts
 * import { measureSwitches, readRig, readTake, routingsOf } from "splitsum";
 * const rig = await readRig("rig.yaml");
 * const take = await readTake("take.wav", { channel: "mean", allowTruncated: false });
 * const routings = routingsOf(rig).filter(({ id }) => id === "parallel");
 * const found = await measureSwitches({ rig, rigFile: "rig.yaml", take, routings, states: "each", threads: 1 });
 * for (const { steps } of found) console.log(steps);
 * ```
 */
export async function measureSwitches(options: SwitchesOptions): Promise<readonly RoutingSwitches[]> {
  const { rig, take, signal } = options;
  const plans = plansOf(options.routings, options.states);
  const clips = await loadClips(rig, options.rigFile, take.rateHz);
  signal?.throwIfAborted();
  const threads = openThreads(options.threads);
  const stop = () => void threads.close();
  signal?.addEventListener("abort", stop, { once: true });
  const shares = sharesOf(plans, threads.count);
  const progress = new Int32Array(new SharedArrayBuffer(4 * shares.length));
  const total = plans.reduce((sum, { renditions }) => sum + renditions.length, 0);
  const tell = () => {
    const done = Math.min(...progress) / Math.max(1, take.samples.length);
    options.onProgress?.(done, `rendering ${total} states`);
  };
  const timer = setInterval(tell, 100);
  try {
    const levels = await Promise.all(
      shares.map(async (share, part) => {
        const wirings = wiringsOf(share);
        const job = { wirings, take: take.samples, rateHz: take.rateHz, clips };
        const { states } = await threads.run({ kind: "states", job, share: { part, progress } });
        return states ?? [];
      }),
    );
    return foundOf(plans, shares, levels);
  } catch (error) {
    signal?.throwIfAborted();
    throw error;
  } finally {
    clearInterval(timer);
    signal?.removeEventListener("abort", stop);
    await threads.close();
  }
}
