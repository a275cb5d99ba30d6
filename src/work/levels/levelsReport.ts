import type { LevelReference } from "../../rig/model/rig.js";
import type { Loading } from "./loading.js";
import type { WiringLevels } from "./wiringLevels.js";

export const levelsSchemaVersion = 1;

/** What `levels` knows: the level on every cable of every routing, and how boxes and cables load each other. */
export interface LevelsReport {
  readonly schemaVersion: typeof levelsSchemaVersion;
  readonly rig: { readonly name: string; readonly playsInto: string };
  readonly take: {
    readonly file: string;
    readonly sha256: string;
    readonly rateHz: number;
    readonly frames: number;
    readonly notices: readonly string[];
  };
  /** Null: levels are told in dBFS alone. */
  readonly reference: LevelReference | null;
  /** Whether loading is in the levels, and by what assumptions. */
  readonly loadingNote: string;
  readonly routings: readonly RoutingLevels[];
}

export interface RoutingLevels extends WiringLevels {
  readonly label: string;
  readonly loading: Loading;
  /** The same with every footswitch off: by true bypass, boxes ahead then drive all the cable behind. */
  readonly loadingWhenOff: Loading;
}
