import type { Rig } from "../../rig/model/rig.js";
import { UserError } from "../../text/userError.js";
import type { OnDemand } from "../contract/onDemand.js";
import type { RenderState } from "./engine/renderState.js";

/** What something is worked out for. */
type Subject = Pick<RenderState, "rig" | "take">;

/** Something that is worked out when it is asked for, and given up when rig or take change meanwhile. */
export class OnDemandWork<Found> {
  readonly #tell: () => void;
  #found: Found | null = null;
  #of: Subject | null = null;
  #progress: OnDemand<Found>["progress"] = null;
  #fault: string | null = null;
  #work: AbortController | null = null;

  /** @param tell  called at every change of the state */
  constructor(tell: () => void) {
    this.#tell = tell;
  }

  state(rig: Rig, take: RenderState["take"] | null): OnDemand<Found> {
    return {
      found: this.#found,
      isCurrent: this.#of !== null && this.#of.rig === rig && this.#of.take === take,
      progress: this.#progress,
      fault: this.#fault,
    };
  }

  /** @param find  does the work; it ends early, by throwing, when the signal says so */
  async ask(
    subject: Subject,
    find: (signal: AbortSignal, onProgress: (done: number, what: string) => void) => Promise<Found>,
  ): Promise<void> {
    this.stop();
    const work = new AbortController();
    this.#work = work;
    this.#fault = null;
    this.#progress = { done: 0, what: "waiting for the engine" };
    this.#tell();
    try {
      const found = await find(work.signal, (done, what) => this.#advance(work, { done, what }));
      if (this.#work !== work) return;
      this.#found = found;
      this.#of = subject;
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

  #advance(work: AbortController, progress: OnDemand<Found>["progress"]): void {
    if (this.#work !== work) return;
    this.#progress = progress;
    this.#tell();
  }
}
