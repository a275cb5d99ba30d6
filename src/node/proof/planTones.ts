import { join } from "node:path";
import type { Rig } from "../../rig/model/rig.js";
import type { Clip } from "../../sound/audio/clip.js";
import { encodeWav } from "../../sound/audio/encodeWav.js";
import { jsonOf } from "../../text/json.js";
import { plannedTonesText } from "../../words/plannedTonesText.js";
import { makeTone } from "../../work/capture/makeTone.js";
import type { PlannedTones } from "../../work/proof/plannedTones.js";
import { proofTone } from "../../work/proof/proofTone.js";
import { recordingList } from "../../work/proof/recordingList.js";
import { writeOwn } from "../files/ownFiles.js";
import { plannedWiring } from "./plannedWiring.js";

export interface PlanTonesOptions {
  readonly rig: Rig;
  readonly rigFile: string | null;
  /** Word of the routing or plan that is built. */
  readonly plan: string;
  /** Folder to write into. */
  readonly folder: string;
  readonly force: boolean;
}

/**
 * Writes the tone, its description and the list of what to record, in order.
 * @throws UserError when something is in the way, or for a word that is no plan of this rig
 * @example
 * ```ts
 * import { planTones, readRig } from "splitsum";
 * const rig = await readRig("rig.yaml");
 * const { list } = await planTones({ rig, rigFile: "rig.yaml", plan: "parallel", folder: "bench", force: true });
 * console.log(list.map(({ offLabels }) => offLabels));
 * ```
 */
export async function planTones({
  rig,
  rigFile,
  plan: word,
  folder,
  force,
}: PlanTonesOptions): Promise<PlannedTones> {
  const { wiring, plan } = await plannedWiring(rig, rigFile, word);
  const list = recordingList(wiring);
  const destination = wiring.boxes.find((box) => box.kind === "destination");
  const { clip, description } = makeTone(proofTone);
  const isStereo = list.some(({ feed }) => feed !== "both");
  const tones = isStereo
    ? {
        both: join(folder, "tone.wav"),
        left: join(folder, "tone-left.wav"),
        right: join(folder, "tone-right.wav"),
      }
    : { both: join(folder, "tone.wav") };
  const planned: PlannedTones = {
    rig: rig.name,
    plan,
    outputs: destination?.kind === "destination" ? destination.inputs : 2,
    hasBuffer: wiring.boxes.some((box) => box.kind === "splitter" && box.buffered),
    tones,
    descriptionFile: join(folder, "tone.json"),
    listFile: join(folder, "recordings.txt"),
    lengthSeconds: description.lengthSeconds,
    rateHz: clip.rateHz,
    list,
  };
  writeOwn(
    [
      { path: planned.descriptionFile, content: jsonOf(description) },
      { path: planned.listFile, content: `${plannedTonesText(planned, 100)}\n` },
      ...Object.entries(tones).map(([feed, path]) => ({
        path,
        content: encodeWav(fedBy(clip, feed), 24, path),
      })),
    ],
    { force },
  );
  return planned;
}

/** The tone on one side of a stereo file, the other silent. */
function fedBy({ rateHz, channels: [tone] }: Clip, feed: string): Clip {
  const silence = new Float32Array(tone.length);
  if (feed === "left") return { rateHz, channels: [tone, silence] };
  return feed === "right" ? { rateHz, channels: [silence, tone] } : { rateHz, channels: [tone] };
}
