import { basename } from "node:path";
import type { Rig } from "../../rig/model/rig.js";
import { fedThrough } from "../../rig/wiring/loading.js";
import { initialiseFft } from "../../sound/dsp/fft.js";
import { UserError } from "../../text/userError.js";
import { recordingWords } from "../../words/recordingWords.js";
import { type ToneSettings, toneSettingsOf } from "../../work/capture/toneSettings.js";
import { type ProofReport, proofSchemaVersion } from "../../work/proof/proofReport.js";
import { proofTone } from "../../work/proof/proofTone.js";
import { proveBoard } from "../../work/proof/proveBoard.js";
import { checkBoardRecording } from "../../work/proof/readBoard.js";
import { type AskedRecording, recordingList } from "../../work/proof/recordingList.js";
import { type RecordedClip, readClip } from "../audio/readClip.js";
import { readToneFile } from "../capture/toneFile.js";
import { loadClips } from "../rig/rigClips.js";
import { plannedWiring } from "./plannedWiring.js";

export interface ProveOptions {
  readonly rig: Rig;
  /** Where the rig stands, for files that it names; null when it came from elsewhere. */
  readonly rigFile: string | null;
  /** Word of the routing or plan that was built. */
  readonly plan: string;
  /** Recordings in the order of `recordingList`. */
  readonly recordings: readonly string[];
  /** Description of the tone, as it was written beside it; the usual tone where left out. */
  readonly toneFile?: string;
  /** Series resistance of what the tone was played from; left out: none. */
  readonly sourceOhms?: number;
  /** So far under the tone hum and hiss must stay, dB. */
  readonly noiseUnderDb: number;
  readonly onProgress?: (done: number, what: string) => void;
}

/**
 * Whether a board was built as drawn, from recordings of the tone through it.
 * @throws UserError for what a person can mend
 * @example
 * ```ts
 * import { planTones, proveRig, readRig } from "splitsum";
 * const rig = await readRig("rig.yaml");
 * const { list } = await planTones({ rig, rigFile: "rig.yaml", plan: "parallel", folder: "tones", force: true });
 * // Each of the list is recorded from the board, in this order; files is what came back.
 * const files: string[] = [];
 * if (files.length === list.length) {
 *   const report = await proveRig({ rig, rigFile: "rig.yaml", plan: "parallel", recordings: files, noiseUnderDb: 30 });
 *   console.log(report.built, report.faults);
 * }
 * ```
 */
export async function proveRig(options: ProveOptions): Promise<ProofReport> {
  const { rig, rigFile, recordings: files, toneFile, noiseUnderDb, onProgress = () => {} } = options;
  const tone = toneFile === undefined ? toneSettingsOf(proofTone) : readToneFile(toneFile);
  const { wiring, plan, returnsBy } = await plannedWiring(rig, rigFile, options.plan);
  const asked = recordingList(wiring);
  if (files.length !== asked.length) throw wrongCount(files.length, asked);
  const destination = wiring.boxes.find((box) => box.kind === "destination");
  const sides = destination?.kind === "destination" ? destination.inputs : 2;
  const clips: RecordedClip[] = [];
  for (const file of files) clips.push(await readBoardClip(file, sides, tone));
  refuseTwice(clips);
  await initialiseFft();
  const proof = proveBoard({
    wiring: fedThrough(wiring, rig, options.sourceOhms ?? 0),
    recordings: asked.map((each, n) => ({ asked: each, file: clips[n].file, clip: clips[n] })),
    tone,
    clips: await loadClips(rig, rigFile, tone.rateHz),
    noiseUnderDb,
    onProgress,
  });
  return {
    schemaVersion: proofSchemaVersion,
    rig: { name: rig.name, playsInto: rig.playsInto },
    plan,
    returnsBy,
    tone,
    sourceOhms: options.sourceOhms ?? null,
    ...proof,
    recordings: asked.map(({ offLabels, feed }, n) => ({
      file: basename(clips[n].file),
      sha256: clips[n].sha256,
      notices: clips[n].notices,
      off: offLabels,
      feed,
      ...proof.recordings[n],
    })),
  };
}

async function readBoardClip(file: string, sides: 1 | 2, tone: ToneSettings): Promise<RecordedClip> {
  const clip = await readClip(file, { allowTruncated: false });
  try {
    checkBoardRecording(clip, sides, tone.rateHz);
  } catch (error) {
    throw inFile(error, file);
  }
  return clip;
}

const inFile = (error: unknown, file: string): unknown =>
  error instanceof UserError
    ? new UserError(
        error.faults.map((fault) => ({ file, ...fault })),
        error.exitStatus,
      )
    : error;

function wrongCount(given: number, asked: readonly AskedRecording[]): UserError {
  const list = asked.map(recordingWords).map((words, n) => `${n + 1} ${words}`);
  return new UserError(
    `${given === 0 ? "no recording is" : given === 1 ? "one recording is" : `${given} recordings are`} given; this plan takes ${asked.length}, in this order: ${list.join("; ")}. Record each as --plan-tones lists them.`,
  );
}

function refuseTwice(clips: readonly RecordedClip[]): void {
  clips.forEach(({ sha256, file }, n) => {
    const first = clips.findIndex((clip) => clip.sha256 === sha256);
    if (first < n)
      throw new UserError({
        file,
        message: `is the same recording as ${clips[first].file}. Give each of the list its own.`,
      });
  });
}
