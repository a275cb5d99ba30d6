import { basename } from "node:path";
import type { Rig } from "../../rig/model/rig.js";
import { chooseRoutings } from "../../rig/routings/chooseRoutings.js";
import { refuseSilent, type Take } from "../../sound/audio/take.js";
import { initialiseFft } from "../../sound/dsp/fft.js";
import { UserError } from "../../text/userError.js";
import { estimateSeconds } from "../../work/sweep/estimate.js";
import { familiesOf } from "../../work/sweep/families.js";
import { figureNames, widthKept } from "../../work/sweep/figures.js";
import { GridRigs } from "../../work/sweep/gridRigs.js";
import { planSweep, type SweepRequest } from "../../work/sweep/planSweep.js";
import type { SweepInputs } from "../../work/sweep/renderBlock.js";
import { type ResultsHead, resultsSchemaVersion } from "../../work/sweep/resultsHead.js";
import { layoutOf, type Shard, type SweepLayout, unitsOfShard } from "../../work/sweep/sweepLayout.js";
import { readWishes, type Wishes, type WishWords, wishedMeasures } from "../../work/sweep/wishes.js";
import { measureReturns } from "../compare/measureReturns.js";
import { openThreads } from "../compare/threads.js";
import { programVersion } from "../files/programVersion.js";
import { threadCount } from "../threads/pool.js";
import { hashInputs } from "./inputs.js";
import { loadSweepClips } from "./sweepClips.js";

export interface SweepOptions {
  readonly rig: Rig;
  /** Where the rig stands, for files that it names; null when it came from elsewhere. */
  readonly rigFile: string | null;
  readonly take: Take;
  readonly outDir: string;
  /** Begin anew where results are already. */
  readonly force: boolean;
  /** Go on with the results that are there. */
  readonly resume: boolean;
  readonly request: SweepRequest;
  readonly wishes: WishWords;
  /** How many of the best are rendered by themselves, for their true peak and decay. */
  readonly best: number;
  /** A fixed part of the sweep; null: all of it. */
  readonly shard: Shard | null;
  /** Threads to use; unless told otherwise, one a core. 0 works in the calling thread, which hears of nothing else meanwhile. */
  readonly threads?: number;
  readonly onProgress?: (done: number, what: string) => void;
  readonly signal?: AbortSignal;
}

/** A sweep that is thought out, before anything of it is computed. */
export interface PreparedSweep {
  readonly options: SweepOptions;
  readonly inputs: SweepInputs;
  readonly head: ResultsHead;
  readonly wishes: Wishes;
  readonly layout: SweepLayout;
  /** Numbers of the units of this part. */
  readonly units: readonly number[];
}

/**
 * @throws UserError for what a person can mend
 *
 * @example
 * ```ts
 * import { prepareSweep, readRig, readTake, sweepSize } from "splitsum";
 * const rig = await readRig("rig.yaml");
 * const take = await readTake("take.wav", { channel: "mean", allowTruncated: false });
 * const groups = [[{ path: "mixer.returnDb", values: [-12, -6, 0] }]];
 * const request = { groups, sample: null, seed: 1, routings: ["parallel"], reference: null } as const;
 * const more = { tolerancePercent: null, draws: 20, tailSeconds: 2 };
 * const wishes = { want: ["sideShare>=0.1"], most: ["wetToDryDb"], least: [] };
 * const place = { rig, rigFile: "rig.yaml", take, outDir: "sweep", force: true, resume: false } as const;
 * const prepared = await prepareSweep({ ...place, request: { ...request, ...more }, wishes, best: 1, shard: null, threads: 1 });
 * console.log(sweepSize(prepared).results);
 * ```
 */
export async function prepareSweep(options: SweepOptions): Promise<PreparedSweep> {
  const { rig: asWritten, rigFile, take, request, shard } = options;
  const wishes = readWishes(options.wishes);
  refuseSilent(take);
  if (shard !== null && wishedMeasures(wishes).includes(widthKept)) {
    throw new UserError(
      `${widthKept} compares routings, and they may be in different parts. Leave it out, and wish for it when the parts are joined: splitsum merge --want.`,
    );
  }
  const clips = await loadSweepClips(asWritten, rigFile, request.groups, take.rateHz);
  await initialiseFft();
  const { rateHz, samples } = take;
  const { plan, labels } = planSweep(asWritten, request, wishes, take, { rateHz, clips });
  const rig = await withReturns(asWritten, plan.routings, options, clips);
  const inputs: SweepInputs = { rig, plan, take: samples, rateHz, clips };
  const layout = layoutOf(plan, familiesOf(plan, new GridRigs(rig, plan)), rateHz, shard?.of);
  const program = programVersion();
  const { sweep: _sweep, ...plainRig } = rig;
  const head: ResultsHead = {
    splitsumSweep: resultsSchemaVersion,
    program,
    inputs: hashInputs({ ...inputs, program }),
    rig: plainRig,
    rigFile: rigFile === null ? null : basename(rigFile),
    take: {
      file: basename(take.file),
      sha256: take.sha256,
      rateHz,
      frames: take.frames,
      channels: take.channels,
    },
    plan,
    labels,
    wishes: options.wishes,
    best: options.best,
    shard,
    figureNames,
  };
  return { options, inputs, head, wishes, layout, units: unitsOfShard(layout, shard) };
}

/**
 * The rig with the returns that it leaves open measured as it stands; where knobs are turned, the estimate says how they
 * move from there.
 */
async function withReturns(
  rig: Rig,
  routings: readonly string[],
  { take, request, threads }: SweepOptions,
  clips: SweepInputs["clips"],
): Promise<Rig> {
  const pool = openThreads(threads);
  try {
    const sound = { take: take.samples, rateHz: take.rateHz, clips, tailSeconds: request.tailSeconds };
    return (await measureReturns(rig, chooseRoutings(rig, routings, null), sound, pool)).rig;
  } finally {
    await pool.close();
  }
}

/**
 * How many results this part has, and about how many seconds it will take.
 *
 * @example
 * ```ts
 * import { prepareSweep, readRig, readTake, sweepSize } from "splitsum";
 * const rig = await readRig("rig.yaml");
 * const take = await readTake("take.wav", { channel: "mean", allowTruncated: false });
 * const groups = [[{ path: "mixer.returnDb", values: [-12, -6, 0] }]];
 * const request = { groups, sample: null, seed: 1, routings: ["parallel"], reference: null } as const;
 * const more = { tolerancePercent: null, draws: 20, tailSeconds: 2 };
 * const wishes = { want: ["sideShare>=0.1"], most: ["wetToDryDb"], least: [] };
 * const place = { rig, rigFile: "rig.yaml", take, outDir: "sweep", force: true, resume: false } as const;
 * const prepared = await prepareSweep({ ...place, request: { ...request, ...more }, wishes, best: 1, shard: null, threads: 1 });
 * const { results, seconds } = sweepSize(prepared);
 * console.log(`${results} results, about ${seconds} s`);
 * ```
 */
export function sweepSize({ options, inputs, layout, units }: PreparedSweep): {
  readonly results: number;
  readonly seconds: number;
} {
  return {
    results: units.reduce((sum, unit) => sum + layout.units[unit].results, 0),
    seconds: estimateSeconds(inputs, layout, units, Math.max(1, threadCount(options.threads))),
  };
}
