import type { RoutingSwitches, StateReading, SwitchStep } from "../work/switches/switchTypes.js";

const switchesSchemaVersion = 1;

/** What `switches --json` prints. */
export interface SwitchesJson {
  readonly schemaVersion: typeof switchesSchemaVersion;
  readonly routings: readonly {
    readonly id: string;
    readonly states: readonly StateReading[];
    readonly steps: readonly SwitchStep[];
  }[];
}

export const switchesJson = (routings: readonly RoutingSwitches[]): SwitchesJson => ({
  schemaVersion: switchesSchemaVersion,
  routings: routings.map(({ id, states, steps }) => ({ id, states, steps })),
});
