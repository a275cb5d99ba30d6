import type { Wiring } from "../../rig/wiring/wiring.js";
import type { ToneSettings } from "../capture/toneSettings.js";
import { Bench, type BenchSound, predictorFor } from "./bench.js";
import { checksOf } from "./checks.js";
import { faultsOf } from "./faults.js";
import { type Candidate, judgeBoard } from "./judgeBoard.js";
import type { Clips } from "./moments.js";
import type { FoundFault, ProofReport, ProvenRecording } from "./proofReport.js";
import { verdictOf } from "./verdict.js";

export interface ProofJob {
  /** The plan as drawn, returns set. */
  readonly wiring: Wiring;
  readonly recordings: readonly BenchSound[];
  readonly tone: ToneSettings;
  /** Sound files that settings name, at the tone's rate. */
  readonly clips: Clips;
  /** So far under the tone hum and hiss must stay. */
  readonly noiseUnderDb: number;
  readonly onProgress?: (done: number, what: string) => void;
}

/** What of the report follows from the recordings. */
export interface Proof
  extends Pick<ProofReport, "built" | "sureness" | "faults" | "checks" | "notTold" | "misfit"> {
  readonly recordings: readonly Pick<ProvenRecording, "driftPpm" | "levelDbfs" | "silence">[];
}

/**
 * Holds recordings of a board against its plan and every single miswiring of it, and names the likeliest.
 * @throws UserError for recordings that hold no tone
 */
export function proveBoard({
  wiring,
  recordings,
  tone,
  clips,
  noiseUnderDb,
  onProgress = () => {},
}: ProofJob): Proof {
  const bench = new Bench(recordings, tone, predictorFor(tone, clips), (n) =>
    onProgress((0.3 * n) / recordings.length, "reading recordings"),
  );
  const judgement = judgeBoard(wiring, bench, (done) =>
    onProgress(0.3 + 0.6 * done, "holding them against faults"),
  );
  const verdict = verdictOf(judgement);
  onProgress(0.9, "checking figures");
  return {
    built: verdict.built,
    sureness: verdict.sureness,
    faults: verdict.faults.map(foundFault),
    checks: checksOf(faultsOf(wiring), bench, judgement, verdict, noiseUnderDb),
    notTold: verdict.notTold.map(foundFault),
    misfit: judgement.misfit,
    recordings: bench.recordings.map(({ measured: { driftPpm, levelDbfs, silence } }) => ({
      driftPpm,
      levelDbfs,
      silence,
    })),
  };
}

function foundFault({ family, amount }: Candidate): FoundFault {
  if (family === null) throw new Error("the plan is no fault");
  const { kind, says, where, wanted } = family;
  return { kind, says, where, wanted, found: wanted === null ? null : amount };
}
