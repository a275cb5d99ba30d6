import { readFileSync } from "node:fs";
import { join } from "node:path";
import { prepareSweep, type SweepOptions } from "../../../src/node/sweep/prepareSweep.js";
import { type SweepDone, sweep } from "../../../src/node/sweep/sweep.js";
import type { AxisGroup } from "../../../src/rig/model/axis.js";
import type { Rig } from "../../../src/rig/model/rig.js";
import type { Take } from "../../../src/sound/audio/take.js";
import { noise } from "../../signals.js";

export const values = (path: string, ...list: number[]) => ({ path, values: list });

function takeOf(samples: Float32Array, rateHz: number): Take {
  return {
    file: "take.wav",
    sha256: "",
    rateHz,
    channels: 1,
    frames: samples.length,
    samples,
    notices: [],
    silent: false,
  };
}

/** A second of noise that fades, at a low rate: a whole sweep of it takes little time. */
export const shortTake = (): Take => {
  const rateHz = 8000;
  const samples = noise({ seed: 21, frames: rateHz, rms: 0.2 }).map((x, n) => x * (1 - n / rateHz));
  return takeOf(samples, rateHz);
};

export interface SmallSweep extends Partial<Omit<SweepOptions, "request">> {
  readonly groups: readonly AxisGroup[];
  readonly request?: Partial<SweepOptions["request"]>;
}

/** A sweep in the calling thread. */
export async function smallSweep(
  rig: Rig,
  outDir: string,
  { groups, request, ...rest }: SmallSweep,
): Promise<SweepDone> {
  return sweep(
    await prepareSweep({
      rig,
      rigFile: null,
      take: shortTake(),
      outDir,
      force: false,
      resume: false,
      wishes: { want: [], most: [], least: [] },
      best: 4,
      shard: null,
      threads: 0,
      ...rest,
      request: {
        groups,
        sample: null,
        seed: 1,
        routings: null,
        reference: null,
        tolerancePercent: null,
        draws: 3,
        tailSeconds: 1,
        ...request,
      },
    }),
  );
}

export const tables = (folder: string): string[] =>
  ["sweep.csv", "sweep.json"].map((name) => readFileSync(join(folder, name), "utf8"));
