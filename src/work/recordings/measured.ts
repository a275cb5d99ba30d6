import type { Measures } from "../../sound/measure/measures.js";

export const measuredSchemaVersion = 1;

/** What `measure` knows of recordings. */
export interface MeasuredReport {
  readonly schemaVersion: typeof measuredSchemaVersion;
  /** The recording that width and tone are compared with. */
  readonly reference: string | null;
  readonly recordings: readonly MeasuredFile[];
}
export interface MeasuredFile {
  readonly file: string;
  readonly sha256: string;
  readonly rateHz: number;
  readonly frames: number;
  readonly channels: number;
  readonly notices: readonly string[];
  readonly measures: Measures;
}
