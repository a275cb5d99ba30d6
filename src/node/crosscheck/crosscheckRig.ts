import { basename } from "node:path";
import type { Rig } from "../../rig/model/rig.js";
import { chooseRoutings } from "../../rig/routings/chooseRoutings.js";
import { refuseSilent, type Take } from "../../sound/audio/take.js";
import { takePart } from "../../sound/audio/takeSource.js";
import { secondsToFrames } from "../../sound/dsp/units.js";
import { withCheckedReturns } from "../../work/crosscheck/checkedSound.js";
import { crosscheck } from "../../work/crosscheck/crosscheck.js";
import { type CrosscheckReport, crosscheckSchemaVersion } from "../../work/crosscheck/crosscheckReport.js";
import { loadClips } from "../rig/rigClips.js";
import { openOffline } from "./openOffline.js";

export interface CrosscheckRigOptions {
  readonly rig: Rig;
  /** Where the rig stands, for files that it names; null when it came from elsewhere. */
  readonly rigFile: string | null;
  readonly take: Take;
  /** Words of the routings wanted; null for all. */
  readonly routings: readonly string[] | null;
  /** How much of the take is played, from its start. */
  readonly seconds: number;
  readonly onProgress?: (done: number, what: string) => void;
}

/**
 * The routings of a rig by the engine and by the library `web-audio-api`, and how far the two are apart.
 * @throws UserError for what a person can mend; exit status 1 when the library is not installed
 * @example
 * ```ts
 * import { crosscheckRig, readRig, readTake } from "splitsum";
 * const rig = await readRig("rig.yaml");
 * const take = await readTake("take.wav", { channel: "mean", allowTruncated: false });
 * const job = { rig, rigFile: "rig.yaml", take, routings: ["series-mono"], seconds: 0.5 };
 * for (const routing of (await crosscheckRig(job)).routings) console.log(routing);
 * ```
 */
export async function crosscheckRig(options: CrosscheckRigOptions): Promise<CrosscheckReport> {
  const { take, seconds, onProgress = () => {} } = options;
  const { sha256, rateHz, frames, notices } = take;
  const asWritten = chooseRoutings(options.rig, options.routings, null);
  refuseSilent(take);
  const samples = takePart(take.samples, 0, Math.min(frames, secondsToFrames(seconds, rateHz)));
  const [openContext, clips] = [await openOffline(), await loadClips(options.rig, options.rigFile, rateHz)];
  const sound = { take: samples, rateHz, clips };
  const { rig, choice } = await withCheckedReturns(options.rig, asWritten, sound);
  const found = await crosscheck({
    rig,
    routings: choice.routings,
    take: { samples, rateHz },
    clips,
    openContext,
    renderer: "library",
    onProgress,
  });
  return {
    schemaVersion: crosscheckSchemaVersion,
    rig: { name: rig.name, playsInto: rig.playsInto },
    take: { file: basename(take.file), sha256, rateHz, frames, playedFrames: samples.length, notices },
    against: "web-audio-api",
    routings: found,
  };
}
