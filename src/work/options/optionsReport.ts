import type { LeftOut } from "../../rig/routings/leftOut.js";
import type { Routing } from "../../rig/routings/routing.js";
import type { BuildSheet } from "../../rig/wiring/buildSheet.js";
import type { Loading } from "../levels/loading.js";

export const optionsSchemaVersion = 1;

/** What `options` knows: every routing of a rig and how to build it, without a sound. */
export interface OptionsReport {
  readonly schemaVersion: typeof optionsSchemaVersion;
  readonly rig: { readonly name: string; readonly playsInto: string };
  readonly routings: readonly RoutingOption[];
  /** Plans that mix places of several mono units, all there are, and how many of them stand in `routings`. */
  readonly mixedPlans: { readonly shown: number; readonly total: number };
  /** Places that make no sense with this rig, and why. */
  readonly leftOut: readonly LeftOut[];
}
export interface RoutingOption extends Pick<Routing, "id" | "label" | "says" | "reason"> {
  readonly possible: boolean;
  /** Null when it is not possible. */
  readonly build: BuildSheet | null;
  /** How boxes and cables load each other, as far as the rig gives impedances; null when it is not possible. */
  readonly loading: Loading | null;
}
