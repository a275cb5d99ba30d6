import { join } from "node:path";
import { JudgedResults } from "../../work/sweep/judgedResults.js";
import { rankByRenders } from "../../work/sweep/rankByRenders.js";
import { figuresToKeep } from "../../work/sweep/ranking.js";
import type { ResultNumber } from "../../work/sweep/results.js";
import type { Shard } from "../../work/sweep/sweepLayout.js";
import { type SweepReport, sweepReport } from "../../work/sweep/sweepReport.js";
import { inPartFolder } from "../files/folderLock.js";
import { ownFile } from "../files/ownFile.js";
import { makeFolder } from "../files/ownFiles.js";
import { openPool } from "../threads/pool.js";
import type { PreparedSweep } from "./prepareSweep.js";
import { ResultIndex } from "./resultIndex.js";
import { ResultsWriter, refuseResults } from "./resultsFile.js";
import { runRenders } from "./runRenders.js";
import { runUnits, type SweepPool } from "./runUnits.js";
import { doSweepJob } from "./sweepJobs.js";
import { refuseTables, writeSweep } from "./writeSweep.js";

export interface SweepDone {
  /** Null for a part: parts are judged once they are joined. */
  readonly report: SweepReport | null;
  readonly judged: JudgedResults;
  /** Names of what was written into the folder. */
  readonly files: readonly string[];
  /** Results that this run computed, and those that an earlier one had. */
  readonly computed: number;
  readonly resumed: number;
}

/** Small heaps are cleared before much piles up: memory then does not grow with the number of settings. */
const heapLimits = { maxYoungGenerationSizeMb: 8, maxOldGenerationSizeMb: 256 };

/** Name of the results file of a sweep, or of a part of one. */
const resultsFileName = (shard: Shard | null): string =>
  shard === null ? "results.jsonl" : `part-${shard.part}-of-${shard.of}.jsonl`;

/**
 * Computes every setting of a sweep, streaming results to a file as they come; then ranks them, renders the best by
 * themselves, and writes tables. Stopped at any moment, the file keeps what was done, and `resume` goes on from there.
 * The tables are the same to the byte whatever the threads, parts and stops.
 * @throws UserError for what a person can mend; `signal.reason` when told to stop
 * @example
 * ```ts
 * import { prepareSweep, readRig, readTake, sweep } from "splitsum";
 * const rig = await readRig("rig.yaml");
 * const take = await readTake("take.wav", { channel: "mean", allowTruncated: false });
 * const groups = [[{ path: "mixer.returnDb", values: [-12, -6, 0] }]];
 * const request = { groups, sample: null, seed: 1, routings: ["parallel"], reference: null } as const;
 * const more = { tolerancePercent: null, draws: 20, tailSeconds: 2 };
 * const wishes = { want: ["sideShare>=0.1"], most: ["wetToDryDb"], least: [] };
 * const place = { rig, rigFile: "rig.yaml", take, outDir: "sweep", force: true, resume: false } as const;
 * const prepared = await prepareSweep({ ...place, request: { ...request, ...more }, wishes, best: 1, shard: null, threads: 1 });
 * const { report } = await sweep(prepared);
 * console.log(report?.best[0]);
 * ```
 */
export async function sweep(prepared: PreparedSweep): Promise<SweepDone> {
  const { outDir, resume, force } = prepared.options;
  const { shard } = prepared.head;
  const path = join(outDir, resultsFileName(shard));
  refuseResults(path, { resume, force });
  if (shard === null) await refuseTables(outDir, resume || force);
  makeFolder(outDir);
  return inPartFolder(path, () => withThreads(prepared, path));
}

async function withThreads(prepared: PreparedSweep, path: string): Promise<SweepDone> {
  const { signal } = prepared.options;
  const pool: SweepPool = openPool(ownFile("dist/threads/sweep.js"), doSweepJob, prepared.options.threads, {
    heapLimits,
  });
  const stop = () => void pool.close();
  signal?.addEventListener("abort", stop, { once: true });
  try {
    return await inFile(prepared, path, pool);
  } catch (error) {
    signal?.throwIfAborted();
    throw error;
  } finally {
    signal?.removeEventListener("abort", stop);
    await pool.close();
  }
}

async function inFile(prepared: PreparedSweep, path: string, pool: SweepPool): Promise<SweepDone> {
  const { options, head, layout, units, wishes } = prepared;
  const { resume, force, outDir, onProgress } = options;
  const writer = await ResultsWriter.open(path, head, { resume, force });
  try {
    const resultsOf = (list: readonly number[]) =>
      list.reduce((sum, unit) => sum + layout.units[unit].results, 0);
    const todo = units.filter((unit) => !writer.done.has(unit));
    const all = resultsOf(units);
    const resumed = all - resultsOf(todo);
    const what = `${all} results`;
    onProgress?.(resumed / Math.max(1, all), what);
    await runUnits(
      {
        ...prepared,
        sweepKey: JSON.stringify(head.inputs),
        pool,
        signal: options.signal,
        onProgress: (results) => onProgress?.((resumed + results) / all, what),
      },
      todo,
      (unit, lines) => writer.addUnit(unit, lines),
    );
    const index = await ResultIndex.of(head, [path], figuresToKeep(wishes), options.signal);
    if (head.shard === null) index.refuseMissing();
    const render = async (missing: readonly ResultNumber[]) => {
      onProgress?.(1, `rendering the best ${missing.length}`);
      const work = { ...prepared, pool, index, signal: options.signal };
      await runRenders(work, missing, (...found) => writer.addRendered(...found));
    };
    const judged = new JudgedResults(index, wishes, await rankByRenders(index, wishes, head.best, render));
    const done = { judged, computed: all - resumed, resumed };
    if (head.shard !== null) return { ...done, report: null, files: [resultsFileName(head.shard)] };
    const report = sweepReport(judged);
    const files = await writeSweep(outDir, judged, report, options.signal);
    return { ...done, report, files: [...files, resultsFileName(null)] };
  } finally {
    writer.close();
  }
}
