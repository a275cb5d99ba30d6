import { join } from "node:path";
import { dryId } from "../../rig/wiring/dryWiring.js";
import type { Comparison } from "./compareOptions.js";
import type { Tracks } from "./renderTracks.js";
import type { Threads } from "./threads.js";

/** Where the files of a comparison go, what they are called, and the gain of each by its id. */
export interface SoundFiles {
  readonly folder: string;
  readonly names: ReadonlyMap<string, string>;
  readonly gainDb: ReadonlyMap<string, number>;
}

/** Writes every sound with its gain, and beside all but the dry take its fold-down. */
export async function encodeTracks(
  { take: { rateHz }, bits }: Pick<Comparison, "take" | "bits">,
  { frames, tracks }: Tracks,
  { folder, names, gainDb }: SoundFiles,
  threads: Threads,
  onProgress: (done: number, what: string) => void,
): Promise<void> {
  let done = 0;
  await Promise.all(
    tracks.map(async ({ reading: { id }, spool }) => {
      const name = names.get(id) ?? id;
      const job = {
        spool,
        frames,
        rateHz,
        bits,
        gainDb: gainDb.get(id) ?? 0,
        stereo: join(folder, `${name}.wav`),
        mono: id === dryId ? null : join(folder, `${name}.mono.wav`),
      };
      await threads.run({ kind: "encode", job });
      done++;
      onProgress(done / tracks.length, `writing ${name}.wav`);
    }),
  );
}
