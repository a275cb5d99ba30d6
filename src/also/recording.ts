import type { Measures } from "../measure/measures.js";
import type { RecordedFacts } from "../report/report.js";

/** What a person named: a word for tables and files, and the recording. */
export interface AlsoWord {
  readonly name: string;
  readonly file: string;
}

/** A recording of the real rig, in time with the take: frame 0 is where the take begins. */
export interface Recording {
  readonly id: string;
  readonly label: string;
  readonly facts: RecordedFacts;
  readonly channels: readonly [left: Float32Array, right: Float32Array];
}

/** The same once it has been measured, as a report needs it. Plain data. */
export interface RecordedReading extends Pick<Recording, "id" | "label" | "facts"> {
  readonly measures: Measures;
}

/** What stands beside its label. */
export const recordedSays = ({ file }: RecordedFacts): string => `A recording of the real rig: ${file}.`;
