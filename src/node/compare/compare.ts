import { mkdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { dryId } from "../../rig/wiring/dryWiring.js";
import { uniqueFileNames } from "../../text/fileName.js";
import { matchedLevels } from "../../work/compare/matchedLevels.js";
import type { Report } from "../../work/compare/report.js";
import { levelOf } from "../../work/render/reading.js";
import { fileFault } from "../files/fileFault.js";
import { type OutputFolder, openOutputFolder } from "../files/outputFolder.js";
import type { Timings } from "../threads/stopwatch.js";
import type { CompareOptions, Comparison } from "./compareOptions.js";
import { encodeTracks } from "./encodeTracks.js";
import { measureReturns } from "./measureReturns.js";
import { type Prepared, prepare } from "./prepare.js";
import { renderTracks } from "./renderTracks.js";
import { openThreads, type Threads } from "./threads.js";
import { comparisonReport, pageOf, writePage, writeReport } from "./writeReport.js";

/**
 * The main job: renders a take through every wiring of a rig, matches, measures, and writes files and report into
 * `outDir`, which appears whole or not at all.
 * @throws UserError for what a person can mend; `signal.reason` when told to stop
 * @example
 * ```ts
 * import { compare, readRig, readTake } from "splitsum";
 * const rig = await readRig("rig.yaml");
 * const take = await readTake("take.wav", { channel: "mean", allowTruncated: false });
 * const options = { routings: ["series-mono", "parallel"], reference: null, tailSeconds: 2, bits: 24, match: true } as const;
 * const { report } = await compare({ rig, rigFile: "rig.yaml", take, outDir: "renders", force: true, ...options });
 * for (const { id, measures } of report.routings) console.log(id, measures?.sideShare);
 * ```
 */
export async function compare(options: CompareOptions): Promise<{ report: Report; outDir: string }> {
  const { outDir, force } = options;
  return { report: await compareInto(options, () => openOutputFolder(outDir, { force })), outDir };
}

/** The same into a folder that is opened once there is something to put into it. */
export async function compareInto(
  options: Comparison,
  openFolder: () => Promise<OutputFolder>,
): Promise<Report> {
  const { signal, timings } = options;
  const prepared = await prepare(options);
  signal?.throwIfAborted();
  const output = await openFolder();
  const threads = timed(options.pool ?? openThreads(options.threads), timings);
  const page = new AbortController();
  const stop = () => void threads.close();
  signal?.addEventListener("abort", stop, { once: true });
  try {
    // The folder took a while to open.
    signal?.throwIfAborted();
    const report = await inFolder(prepared, { folder: output.folder, threads, pageSignal: page.signal });
    signal?.throwIfAborted();
    timings?.at("name");
    await output.commit(signal);
    timings?.at("end threads");
    return report;
  } catch (error) {
    // The page is in the making meanwhile, and threads that still write would leave something behind.
    page.abort();
    await threads.close();
    output.discard();
    signal?.throwIfAborted();
    throw error;
  } finally {
    signal?.removeEventListener("abort", stop);
    await threads.close();
  }
}

interface Workplace {
  readonly folder: string;
  readonly threads: Threads;
  /** The page is not wanted any more. */
  readonly pageSignal: AbortSignal;
}

/** Shares of the whole work: measuring returns, and rendering; the rest is encoding. */
const returnsShare = 0.2;
const renderShare = 0.6;

async function inFolder(asked: Prepared, { folder, threads, pageSignal }: Workplace): Promise<Report> {
  const { onProgress = () => {}, writes = "all", match, timings } = asked.options;
  const within = (from: number, to: number) => (done: number, what: string) =>
    onProgress(from + (to - from) * done, what);
  const hasSounds = writes === "all" || writes === "sounds";
  const hasPage = writes === "all" || writes === "page";
  timings?.at("returns");
  const prepared = await withReturns(asked, threads, within(0, returnsShare));
  const spools = join(folder, ".spools");
  makeFolder(spools);
  const page = hasPage ? pageOf(prepared, pageSignal) : null;
  const rendered = returnsShare + renderShare;
  timings?.at("render and measure");
  const sounds = await renderTracks(prepared, threads, spools, within(returnsShare, rendered));
  timings?.at("match");
  const levels = matchedLevels(
    sounds.tracks.map(({ reading }) => levelOf(reading)),
    match,
  );
  const files = { folder, names: fileNames(prepared), gainDb: levels.gainDb };
  timings?.at("write");
  if (hasSounds) await encodeTracks(prepared.options, sounds, files, threads, within(rendered, 1));
  // Awaited at the end: they end while the rest is written.
  void threads.close();
  rmSync(spools, { recursive: true });
  timings?.at("report");
  const report = comparisonReport(prepared, sounds, levels, files.names);
  if (hasSounds) await writeReport(folder, report, prepared.options);
  timings?.at("page");
  if (page) await writePage(folder, report, page, prepared.options);
  onProgress(1, "done");
  return report;
}

/** The same threads, of which is told what their time goes into. */
const timed = (threads: Threads, timings: Timings | undefined): Threads =>
  timings
    ? {
        count: threads.count,
        run: async (job) => {
          const outcome = await threads.run(job);
          for (const [stage, ms] of outcome.stages) if (stage !== "") timings.beside(stage, ms);
          return outcome;
        },
        close: () => threads.close(),
      }
    : threads;

function makeFolder(folder: string): void {
  try {
    mkdirSync(folder);
  } catch (error) {
    throw fileFault(error, folder, "write");
  }
}

/** The same with returns measured whose levels the rig leaves open. */
async function withReturns(
  { options, choice: asked, ...rest }: Prepared,
  threads: Threads,
  onProgress: (done: number, what: string) => void,
): Promise<Prepared> {
  const { take, tailSeconds } = options;
  const sound = { take: take.samples ?? take.spool, rateHz: take.rateHz, clips: rest.clips, tailSeconds };
  const { rig, choice } = await measureReturns(options.rig, asked, { ...sound, onProgress }, threads);
  return { ...rest, options: { ...options, rig }, choice };
}

/** File names of the dry take, the possible routings and the recordings, by id; those of hand-drawn ones are anything. */
function fileNames({ choice, recordings }: Prepared): ReadonlyMap<string, string> {
  const possible = choice.routings.filter(({ wiring }) => wiring);
  const ids = [dryId, ...[...possible, ...recordings].map(({ id }) => id)];
  const names = uniqueFileNames(ids);
  return new Map(ids.map((id, n) => [id, names[n]]));
}
