import { mkdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { dryId } from "../../rig/wiring/dryWiring.js";
import { uniqueFileNames } from "../../text/fileName.js";
import { matchedLevels } from "../../work/compare/matchedLevels.js";
import type { Report } from "../../work/compare/report.js";
import { levelOf } from "../../work/render/reading.js";
import { fileFault } from "../files/fileFault.js";
import { type OutputFolder, openOutputFolder } from "../files/outputFolder.js";
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
  const { signal } = options;
  const prepared = await prepare(options);
  signal?.throwIfAborted();
  const output = await openFolder();
  const threads = openThreads(options.threads);
  const page = new AbortController();
  const stop = () => void threads.close();
  signal?.addEventListener("abort", stop, { once: true });
  try {
    // The folder took a while to open.
    signal?.throwIfAborted();
    const report = await inFolder(prepared, { folder: output.folder, threads, pageSignal: page.signal });
    signal?.throwIfAborted();
    await output.commit(signal);
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
  const { onProgress = () => {}, writes = "all", match } = asked.options;
  const within = (from: number, to: number) => (done: number, what: string) =>
    onProgress(from + (to - from) * done, what);
  const hasSounds = writes === "all" || writes === "sounds";
  const hasPage = writes === "all" || writes === "page";
  const prepared = await withReturns(asked, threads, within(0, returnsShare));
  const spools = join(folder, ".spools");
  makeFolder(spools);
  const page = hasPage ? pageOf(prepared, pageSignal) : null;
  const rendered = returnsShare + renderShare;
  const sounds = await renderTracks(prepared, threads, spools, within(returnsShare, rendered));
  const levels = matchedLevels(
    sounds.tracks.map(({ reading }) => levelOf(reading)),
    match,
  );
  const files = { folder, names: fileNames(prepared), gainDb: levels.gainDb };
  if (hasSounds) await encodeTracks(prepared.options, sounds, files, threads, within(rendered, 1));
  rmSync(spools, { recursive: true });
  const report = comparisonReport(prepared, sounds, levels, files.names);
  if (hasSounds) await writeReport(folder, report, prepared.options);
  if (page) await writePage(folder, report, page, prepared.options);
  onProgress(1, "done");
  return report;
}

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
