import { loadClips } from "../compare/clips.js";
import { statesOf } from "../compare/jobs.js";
import { openThreads } from "../compare/threads.js";
import type { Rig } from "../rig/rig.js";
import type { Routing } from "../routings/routing.js";
import type { Wiring } from "../wiring/wiring.js";
import { chooseStates, type StateChoice } from "./chooseStates.js";
import type { StateLevels } from "./measureStates.js";
import { type SwitchState, switchesOf } from "./states.js";
import { type Rendition, readingOf, renditionsOf, stepsOf } from "./steps.js";
import type { RoutingSwitches } from "./switches.js";

export interface SwitchesOptions {
  readonly rig: Rig;
  /** Where the rig stands, for files that it names; null when it came from elsewhere. */
  readonly rigFile: string | null;
  /** On a SharedArrayBuffer, where several threads are to read it. */
  readonly take: { readonly samples: Float32Array; readonly rateHz: number };
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
 */
export async function lookAtSwitches(options: SwitchesOptions): Promise<readonly RoutingSwitches[]> {
  const { rig, take, signal } = options;
  const plans = options.routings.flatMap(({ id, label, wiring }) =>
    wiring ? [planOf({ id, label, wiring }, options.states)] : [],
  );
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
    const levels = new Map<Plan, readonly StateLevels[]>();
    await Promise.all(
      shares.map(async (share, part) => {
        const wirings = share.flatMap(({ renditions }) => renditions.map(({ wiring }) => wiring));
        const job = { wirings, take: take.samples, rateHz: take.rateHz, clips, progress, part };
        const found = statesOf(await threads.run({ kind: "states", job }));
        let first = 0;
        for (const plan of share) {
          levels.set(plan, found.slice(first, first + plan.renditions.length));
          first += plan.renditions.length;
        }
      }),
    );
    return plans.map((plan) => assembled(plan, levels.get(plan) ?? []));
  } catch (error) {
    signal?.throwIfAborted();
    throw error;
  } finally {
    clearInterval(timer);
    signal?.removeEventListener("abort", stop);
    await threads.close();
  }
}

/** What is to be rendered of one routing. */
interface Plan {
  readonly id: string;
  readonly label: string;
  readonly wiring: Wiring;
  readonly states: readonly SwitchState[];
  readonly renditions: readonly Rendition[];
}

function planOf(routing: { id: string; label: string; wiring: Wiring }, choice: StateChoice): Plan {
  const states = chooseStates(routing.wiring, choice);
  return { ...routing, states, renditions: renditionsOf(routing.wiring, states) };
}

/** Routings shared out so that every thread renders about as much; states of one routing share most, so stay together. */
function sharesOf(plans: readonly Plan[], threads: number): readonly (readonly Plan[])[] {
  const shares = Array.from({ length: Math.max(1, Math.min(threads, plans.length)) }, () => ({
    cost: 0,
    plans: [] as Plan[],
  }));
  const cost = ({ renditions, wiring }: Plan) => renditions.length * wiring.boxes.length;
  for (const plan of [...plans].sort((a, b) => cost(b) - cost(a))) {
    const least = shares.reduce((best, share) => (share.cost < best.cost ? share : best));
    least.cost += cost(plan);
    least.plans.push(plan);
  }
  return shares.map((share) => share.plans);
}

function assembled(
  { id, label, wiring, states, renditions }: Plan,
  levels: readonly StateLevels[],
): RoutingSwitches {
  const find = (state: string, muted: number | null) =>
    levels[renditions.findIndex((each) => each.state === state && each.muted === muted)];
  const readings = states.map((state) => readingOf(state, wiring, find(state.id, null)));
  const switches = switchesOf(wiring);
  return {
    id,
    label,
    switches: switches.map((box) => box.label),
    states: readings,
    steps: stepsOf(wiring, readings, (state, place) => find(state, place)?.integratedLufs ?? null),
  };
}
