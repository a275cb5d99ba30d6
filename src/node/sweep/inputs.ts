import { createHash } from "node:crypto";
import type { Rig } from "../../rig/model/rig.js";
import { channelsOf, type HeldTake } from "../../sound/audio/takeSource.js";
import { figureNames } from "../../work/sweep/figures.js";
import type { SweepPlan } from "../../work/sweep/plan.js";
import type { InputHashes } from "../../work/sweep/resultsHead.js";

export function hashInputs(inputs: {
  readonly rig: Rig;
  readonly take: HeldTake;
  readonly rateHz: number;
  readonly clips: ReadonlyMap<string, readonly Float32Array[]>;
  readonly plan: SweepPlan;
  readonly program: string;
}): InputHashes {
  const { rig, take, rateHz, clips, plan, program } = inputs;
  // What is swept stands in the plan; the block in the rig is only where it may come from. Trims follow from the rest.
  const { sweep: _sweep, returnTrims: _trims, ...plain } = rig;
  return {
    rig: hashOf(JSON.stringify(plain)),
    take: hashOf(JSON.stringify({ rateHz }), ...channelsOf(take).map(bytesOf)),
    clips: hashOf(...[...clips].flatMap(([name, channels]) => [name, ...channels.map(bytesOf)])),
    plan: hashOf(JSON.stringify(plan)),
    program: hashOf(JSON.stringify({ program, figureNames })),
    engine: engineOf(process.versions.v8),
  };
}

/** Sines and logarithms are the engine's own: from version to version their last digits differ. */
const engineOf = (version: string): string => version.split(".", 2).join(".");

/** Words for the inputs in which two sweeps differ; none when they are of the same. */
export function differencesOf(ours: InputHashes, theirs: InputHashes): string[] {
  const words: Readonly<Record<keyof InputHashes, string>> = {
    rig: "the rig",
    take: "the take",
    clips: "a sound file that the rig names",
    plan: "what is varied, the routings or the tail",
    program: "the version of splitsum",
    engine: "the version of Node (and with it the last digits)",
  };
  const keys = ["rig", "take", "clips", "plan", "program", "engine"] as const;
  return keys.filter((key) => ours[key] !== theirs[key]).map((key) => words[key]);
}

const bytesOf = (samples: Float32Array): Uint8Array =>
  new Uint8Array(samples.buffer, samples.byteOffset, samples.byteLength);

/** SHA-256 (FIPS 180-4), in hexadecimal. */
function hashOf(...parts: readonly (string | Uint8Array)[]): string {
  const hash = createHash("sha256");
  for (const part of parts) hash.update(part);
  return hash.digest("hex");
}
