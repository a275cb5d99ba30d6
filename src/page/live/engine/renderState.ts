import type { Rig } from "../../../rig/model/rig.js";
import type { RoutingChoice } from "../../../rig/routings/chooseRoutings.js";
import type { HeldTake } from "../../../sound/audio/takeSource.js";
import type { LevelReading } from "../../../sound/measure/match.js";
import type { Engine } from "./engine.js";

/** What does the work. */
export type RenderEngine = Pick<Engine, "count" | "sound" | "responses" | "figures">;

/** What is to be rendered. */
export interface RenderState {
  readonly rig: Rig;
  /** What is compared of it. */
  readonly choice: RoutingChoice;
  readonly take: { readonly samples: HeldTake; readonly rateHz: number };
  readonly clips: ReadonlyMap<string, readonly Float32Array[]>;
  /** Levels of wirings, by id, where they are known for this rig and take; others are measured on the way. */
  readonly levels: ReadonlyMap<string, LevelReading>;
}

/** What is to be looked into: the rig as it is set, the take, and the sound files that the rig names. */
export type RigTakeClips = Pick<RenderState, "rig" | "take" | "clips">;
