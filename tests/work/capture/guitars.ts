import { createRequire } from "node:module";
import { readClip } from "../../../src/node/audio/readClip.js";
import type { Clip } from "../../../src/sound/audio/clip.js";

/** Real recordings: the CC0 package `supersonic-scsynth-samples`, 44.1 kHz. */
export const guitarNames = ["guit_em9", "guit_e_fifths", "guit_e_slide", "guit_harmonics"] as const;

/** Left side of a recording. */
export async function guitar(name: (typeof guitarNames)[number]): Promise<Clip> {
  const file = createRequire(import.meta.url).resolve(`supersonic-scsynth-samples/samples/${name}.flac`);
  const { rateHz, channels } = await readClip(file, { allowTruncated: false });
  return { rateHz, channels: [Float32Array.from(channels[0])] };
}
