import type { ProofReport } from "./proofReport.js";
import type { AskedRecording } from "./recordingList.js";

/** The tones as written, and what to record with them. */
export interface PlannedTones {
  readonly rig: string;
  readonly plan: ProofReport["plan"];
  readonly outputs: 1 | 2;
  /** A buffered splitter is in the plan. */
  readonly hasBuffer: boolean;
  /** The tone's file by where it goes in. */
  readonly tones: Readonly<Partial<Record<AskedRecording["feed"], string>>>;
  readonly descriptionFile: string;
  readonly listFile: string;
  readonly lengthSeconds: number;
  readonly rateHz: number;
  readonly list: readonly AskedRecording[];
}
