import { chooseRoutings } from "../compare/chooseRoutings.js";
import type { Rig } from "../rig/rig.js";
import type { RoutingSwitches } from "../switches/switches.js";
import { UserError } from "../userError.js";
import type { Switches } from "./bench.js";
import type { Engine } from "./engine/engine.js";
import type { RenderState } from "./engine/renders.js";
import { switchStates } from "./engine/switchStates.js";

/** What is looked at: the rig as it is set, and the take. */
export type SwitchSubject = Pick<RenderState, "take" | "clips"> & { readonly rig: Rig };

/** What footswitches do, worked out when it is asked for; given up when rig or take change meanwhile. */
export class LiveSwitches {
  readonly #engine: Pick<Engine, "count" | "states">;
  readonly #tell: () => void;
  #found: readonly RoutingSwitches[] | null = null;
  #of: Omit<SwitchSubject, "clips"> | null = null;
  #progress: Switches["progress"] = null;
  #fault: string | null = null;
  #work: AbortController | null = null;

  /** @param tell  called at every change of the state */
  constructor(engine: Pick<Engine, "count" | "states">, tell: () => void) {
    this.#engine = engine;
    this.#tell = tell;
  }

  state(rig: Rig, take: RenderState["take"] | null): Switches {
    return {
      found: this.#found,
      isCurrent: this.#of !== null && this.#of.rig === rig && this.#of.take === take,
      progress: this.#progress,
      fault: this.#fault,
    };
  }

  /** @param ids  routings to look at, of which those that are not possible are left out */
  async look({ rig, take, clips }: SwitchSubject, ids: readonly string[]): Promise<void> {
    this.stop();
    const work = new AbortController();
    this.#work = work;
    this.#fault = null;
    this.#progress = { done: 0, what: "waiting for the engine" };
    this.#tell();
    try {
      const { routings } = chooseRoutings(rig, ids, null);
      const found = await switchStates(this.#engine, {
        routings,
        take,
        clips,
        signal: work.signal,
        onProgress: (done, what) => this.#advance(work, { done, what }),
      });
      this.#found = found;
      this.#of = { rig, take };
    } catch (error) {
      if (work.signal.aborted) return;
      work.abort();
      if (!(error instanceof UserError)) console.error(error);
      this.#fault = error instanceof Error ? error.message : String(error);
    }
    if (this.#work !== work) return;
    this.#work = null;
    this.#progress = null;
    this.#tell();
  }

  /** Gives up what is being worked out. */
  stop(): void {
    if (!this.#work) return;
    this.#work.abort();
    this.#work = null;
    this.#progress = null;
    this.#tell();
  }

  #advance(work: AbortController, progress: Switches["progress"]): void {
    if (this.#work !== work) return;
    this.#progress = progress;
    this.#tell();
  }
}
