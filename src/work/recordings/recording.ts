/** What a person named: a word for tables and files, and the recording. */
export interface RecordingWord {
  readonly name: string;
  readonly file: string;
}

/** A recording of the real rig, and how it stood to the take before its delay was taken out. */
export interface RecordedFacts {
  readonly file: string;
  readonly sha256: string;
  /** Of the file; it is measured at the rate of the take. */
  readonly rateHz: number;
  readonly frames: number;
  readonly channels: number;
  readonly notices: readonly string[];
  /** Positive: it came late. Interface and recorder included. */
  readonly latencyMs: number;
  readonly invertsPolarity: boolean;
  /** Of what follows the dry take. */
  readonly gainDb: number;
  /** 0 chance, 1 no doubt that this is the take through a rig. */
  readonly confidence: number;
}

/** A recording of the real rig, in time with the take: frame 0 is where the take begins. */
export interface Recording {
  readonly id: string;
  readonly label: string;
  readonly facts: RecordedFacts;
  readonly channels: readonly [left: Float32Array, right: Float32Array];
}

/** What stands beside its label. */
export const recordedSays = ({ file }: RecordedFacts): string => `A recording of the real rig: ${file}.`;
