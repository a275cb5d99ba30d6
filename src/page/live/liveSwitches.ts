import type { Rig } from "../../rig/model/rig.js";
import { chooseRoutings } from "../../rig/routings/chooseRoutings.js";
import type { RoutingSwitches } from "../../work/switches/switchTypes.js";
import type { Switches } from "../contract/onDemand.js";
import type { Engine } from "./engine/engine.js";
import type { RenderState, RigTakeClips } from "./engine/renderState.js";
import { switchStates } from "./engine/switchStates.js";
import { OnDemandWork } from "./onDemandWork.js";

/** What footswitches do, worked out when it is asked for; given up when rig or take change meanwhile. */
export class LiveSwitches {
  readonly #engine: Pick<Engine, "count" | "states">;
  readonly #work: OnDemandWork<readonly RoutingSwitches[]>;

  /** @param tell  called at every change of the state */
  constructor(engine: Pick<Engine, "count" | "states">, tell: () => void) {
    this.#engine = engine;
    this.#work = new OnDemandWork(tell);
  }

  state(rig: Rig, take: RenderState["take"] | null): Switches {
    return this.#work.state(rig, take);
  }

  /** @param ids  routings to look at, of which those that are not possible are left out */
  workOut({ rig, take, clips }: RigTakeClips, ids: readonly string[]): Promise<void> {
    return this.#work.ask({ rig, take }, async (signal, onProgress) => {
      const { routings } = chooseRoutings(rig, ids, null);
      return switchStates(this.#engine, { routings, take, clips, signal, onProgress });
    });
  }

  /** Gives up what is being worked out. */
  stop(): void {
    this.#work.stop();
  }
}
