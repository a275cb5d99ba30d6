import { dirname, resolve } from "node:path";
import type { Rig } from "../../rig/model/rig.js";
import { soundFilesOf } from "../../rig/model/soundFiles.js";
import { readClip } from "../audio/readClip.js";
import { resampleResponse } from "../audio/resample.js";

/**
 * The sound files that a rig's settings name, beside the rig, at the rate of the take.
 * @returns channels on SharedArrayBuffers, by the value of the setting
 * @throws UserError when one cannot be read
 */
export async function loadClips(
  rig: Rig,
  rigFile: string | null,
  rateHz: number,
): Promise<Map<string, Float32Array[]>> {
  const clips = new Map<string, Float32Array[]>();
  for (const name of soundFilesOf(rig)) {
    const clip = await readClip(rigFile === null ? name : resolve(dirname(rigFile), name), {
      allowTruncated: false,
    });
    const { channels } = await resampleResponse(clip, rateHz);
    clips.set(name, channels.map(shared));
  }
  return clips;
}

function shared(samples: Float32Array): Float32Array {
  const copy = new Float32Array(new SharedArrayBuffer(samples.byteLength));
  copy.set(samples);
  return copy;
}
