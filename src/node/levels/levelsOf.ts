import { basename } from "node:path";
import { chooseRoutings } from "../../rig/routings/chooseRoutings.js";
import { loadingNote } from "../../rig/wiring/loadingNote.js";
import { initialiseFft } from "../../sound/dsp/fft.js";
import { gainStaging } from "../../work/levels/gainStaging.js";
import { type LevelsReport, levelsSchemaVersion } from "../../work/levels/levelsReport.js";
import { loadingOf } from "../../work/levels/loading.js";
import { usualTailSeconds } from "../../work/render/tail.js";
import { withMeasuredReturns } from "../../work/returns/measuredReturns.js";
import { withAllOff } from "../../work/switches/states.js";
import type { RigAndTake } from "../rig/rigAndTake.js";
import { loadClips } from "../rig/rigClips.js";

/**
 * Levels and loading of every possible routing of a rig.
 * @param words  of the routings wanted; null for all
 * @throws UserError
 * @example
 * ```ts
 * import { levelsOf, readRig, readTake } from "splitsum";
 * const rig = await readRig("rig.yaml");
 * const take = await readTake("take.wav", { channel: "mean", allowTruncated: false });
 * const { routings } = await levelsOf({ rig, rigFile: "rig.yaml", take }, ["parallel"], () => {});
 * for (const { id, firstClip } of routings) console.log(id, firstClip);
 * ```
 */
export async function levelsOf(
  { rig: asked, rigFile, take }: RigAndTake,
  words: readonly string[] | null,
  onProgress: (done: number, what: string) => void,
): Promise<LevelsReport> {
  const asWritten = chooseRoutings(asked, words, null);
  const clips = await loadClips(asked, rigFile, take.rateHz);
  await initialiseFft();
  const sound = { take: take.samples, rateHz: take.rateHz, clips, tailSeconds: usualTailSeconds };
  const { rig, choice } = withMeasuredReturns(asked, asWritten, sound);
  const wirings = choice.routings.flatMap(({ id, label, wiring }) => (wiring ? [{ id, label, wiring }] : []));
  const levelled = gainStaging({
    rig,
    wirings,
    take: take.samples,
    rateHz: take.rateHz,
    clips,
    onFrames: (frames) => onProgress(frames / Math.max(1, take.frames), "playing the take"),
  });
  const { sha256, rateHz, frames, notices } = take;
  return {
    schemaVersion: levelsSchemaVersion,
    rig: { name: rig.name, playsInto: rig.playsInto },
    take: { file: basename(take.file), sha256, rateHz, frames, notices },
    reference: rig.reference,
    loadingNote: loadingNote(
      rig,
      wirings.map(({ wiring }) => wiring),
    ),
    routings: wirings.map(({ label, wiring }, n) => ({
      ...levelled[n],
      label,
      loading: loadingOf(wiring, rig),
      loadingWhenOff: loadingOf(withAllOff(wiring), rig),
    })),
  };
}
