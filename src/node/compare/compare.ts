import { mkdirSync, rmSync } from "node:fs";
import { basename, join } from "node:path";
import { takenIds } from "../../rig/file/references.js";
import type { Rig } from "../../rig/model/rig.js";
import { chooseRoutings, type MorePlans, type RoutingChoice } from "../../rig/routings/chooseRoutings.js";
import type { Routing } from "../../rig/routings/routing.js";
import { routingsOf } from "../../rig/routings/routingsOf.js";
import { dryId, dryWiring } from "../../rig/wiring/dryWiring.js";
import { otherPhases } from "../../rig/wiring/freeLfos.js";
import type { Take } from "../../sound/audio/take.js";
import { secondsToFrames } from "../../sound/dsp/units.js";
import { uniqueFileNames } from "../../text/fileName.js";
import { jsonOf } from "../../text/json.js";
import { UserError } from "../../text/userError.js";
import { csvOf } from "../../words/csv.js";
import { assembleReport } from "../../work/compare/assembleReport.js";
import { matchedLevels } from "../../work/compare/matchedLevels.js";
import { partition } from "../../work/compare/partition.js";
import type { ReelSpan } from "../../work/compare/reel.js";
import { meetingRounds } from "../../work/compare/renderPart.js";
import type { Report } from "../../work/compare/report.js";
import type { Recording, RecordingWord } from "../../work/recordings/recording.js";
import { levelOf, type Reading } from "../../work/render/reading.js";
import { tailRule } from "../../work/render/tail.js";
import type { PageSweep } from "../../work/sweep/pageSweep.js";
import { type LongTake, samplesOf } from "../audio/readTake.js";
import { fileFault } from "../files/fileFault.js";
import { type OutputFolder, openOutputFolder } from "../files/outputFolder.js";
import { writeWhole } from "../files/wholeFile.js";
import { beginPage } from "../page/page.js";
import { readRecordings, recordingIds } from "../recordings/readRecordings.js";
import { newMeeting } from "../threads/meeting.js";
import { measureReturns } from "./measureReturns.js";
import type { Job } from "./renderJobs.js";
import { loadClips } from "./rigClips.js";
import { spoolPath } from "./spool.js";
import { openThreads, type Threads } from "./threads.js";
import { checkSpan, writeReel } from "./writeReel.js";

export interface CompareOptions {
  readonly rig: Rig;
  /** Where the rig stands, for files that it names; null when it came from elsewhere. */
  readonly rigFile: string | null;
  readonly take: Take | LongTake;
  readonly outDir: string;
  /** Replace a folder that an earlier comparison wrote. */
  readonly force: boolean;
  /** Words of the routings wanted; null for all. */
  readonly routings: readonly string[] | null;
  /** Plans beside those: how many that mix places, and one by its places. */
  readonly plans?: MorePlans;
  readonly reference: string | null;
  /** Recordings of the real rig, to stand beside the renders. */
  readonly also?: readonly RecordingWord[];
  /** The tail is cut here at the latest. */
  readonly tailSeconds: number;
  readonly bits: 16 | 24 | 32;
  /** Match all files to one loudness; else one gain for all, only as far as their peaks demand. */
  readonly match: boolean;
  /** Threads to use; unless told otherwise, one a core. 0 works in the calling thread, which hears of nothing else meanwhile. */
  readonly threads?: number;
  /** What is written: all; all but the page; the page alone, which renders by itself; or nothing but the report. */
  readonly writes?: "all" | "sounds" | "page" | "nothing";
  /** One more file, in which all choices play one after the other. */
  readonly reel?: ReelSpan;
  /** Other takes that travel in the page, and what it says of all of them. */
  readonly pageTakes?: {
    readonly takes: readonly (Take | LongTake)[];
    readonly overTakes: (report: Report) => readonly string[];
  };
  /** To be shown in the page. */
  readonly sweep?: PageSweep;
  readonly onProgress?: (done: number, what: string) => void;
  readonly signal?: AbortSignal;
}

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
  options: Omit<CompareOptions, "outDir" | "force">,
  openFolder: () => Promise<OutputFolder>,
): Promise<Report> {
  const { rig, take, rigFile, signal } = options;
  if (options.reel) checkSpan(options.reel, take.frames / take.rateHz);
  checkLength(take.frames, options.tailSeconds, take.rateHz, options.bits);
  const also = options.also ?? [];
  const taken = [...takenIds, ...routingsOf(rig).map(({ id }) => id)];
  const isRecorded = recordingIds(also, taken).includes(options.reference ?? "");
  const choice = chooseRoutings(rig, options.routings, isRecorded ? null : options.reference, options.plans);
  const clips = await loadClips(rig, rigFile, take.rateHz);
  const recordings =
    also.length === 0
      ? []
      : await readRecordings(also, { rateHz: take.rateHz, samples: samplesOf(take) }, taken, (file) =>
          options.onProgress?.(0, `aligning ${file}`),
        );
  signal?.throwIfAborted();
  const output = await openFolder();
  const threads = openThreads(options.threads);
  const page = new AbortController();
  const stop = () => void threads.close();
  signal?.addEventListener("abort", stop, { once: true });
  try {
    // The folder took a while to open.
    signal?.throwIfAborted();
    const recordedReference = isRecorded ? options.reference : null;
    const given = { options, choice, clips, recordings, recordedReference };
    const report = await inFolder({ ...given, output, threads, pageSignal: page.signal });
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

interface Work {
  readonly options: Omit<CompareOptions, "outDir" | "force">;
  readonly choice: RoutingChoice;
  readonly clips: ReadonlyMap<string, readonly Float32Array[]>;
  readonly recordings: readonly Recording[];
  readonly recordedReference: string | null;
  readonly output: OutputFolder;
  readonly threads: Threads;
  /** The page is not wanted any more. */
  readonly pageSignal: AbortSignal;
}

async function inFolder(asked: Work): Promise<Report> {
  const work = await withReturns(asked);
  const { options, choice, clips, output, recordedReference } = work;
  const spools = join(output.folder, ".spools");
  makeFolder(spools);
  const { rig, rigFile, take, tailSeconds, sweep } = options;
  const { writes = "all" } = options;
  const { routings } = choice;
  const page =
    writes === "nothing" || writes === "sounds"
      ? null
      : beginPage({
          rig,
          take,
          moreTakes: options.pageTakes?.takes ?? [],
          routings,
          clips,
          tailSeconds,
          signal: work.pageSignal,
          ...(sweep ? { sweep } : {}),
        });
  const hasSounds = writes === "all" || writes === "sounds";
  const { frames, tracks: rendered, phases } = await renderAll(work, spools);
  const recorded = await Promise.all(
    work.recordings.map(async (recording, n): Promise<Track> => {
      const spool = join(spools, `recording-${n}.f32`);
      const job = { recording, rateHz: take.rateHz, frames, spool };
      const { recorded: reading } = await work.threads.run({ kind: "recording", job });
      if (!reading) throw new Error("a recording was not measured");
      return { spool, reading };
    }),
  );
  const tracks = [...rendered, ...recorded];
  const readings = tracks.map(({ reading }) => reading);
  const levels = matchedLevels(readings.map(levelOf), options.match);
  const names = fileNames([...choice.routings.filter(({ wiring }) => wiring), ...work.recordings]);
  if (hasSounds) await encodeAll(work, frames, tracks, levels.gainDb, names);
  rmSync(spools, { recursive: true });
  const report = assembleReport({
    rig,
    rigFile: rigFile === null ? null : basename(rigFile),
    take: { ...take, file: basename(take.file) },
    choice,
    frames,
    readings,
    phases,
    recordings: work.recordings,
    levels,
    names,
    recordedReference,
  });
  if (hasSounds) {
    writeWhole(join(output.folder, "report.json"), jsonOf(report), { force: false });
    writeWhole(join(output.folder, "report.csv"), csvOf(report), { force: false });
    if (options.reel) await writeReel(output.folder, report, options.reel);
  }
  const overTakes = options.pageTakes ? { overTakes: options.pageTakes.overTakes(report) } : {};
  if (page)
    writeWhole(join(output.folder, "report.html"), await page.finish(report, overTakes), { force: false });
  options.onProgress?.(1, "done");
  return report;
}

function makeFolder(folder: string): void {
  try {
    mkdirSync(folder);
  } catch (error) {
    throw fileFault(error, folder, "write");
  }
}

/** Shares of the whole work: measuring returns, and rendering; the rest is encoding. */
const returnsShare = 0.2;
const renderShare = 0.6;

/** The same work with returns measured whose levels the rig leaves open. */
async function withReturns(work: Work): Promise<Work> {
  const { options, clips, threads } = work;
  const { take, tailSeconds } = options;
  const { rig, choice } = await measureReturns(
    options.rig,
    work.choice,
    {
      take: take.samples ?? take.spool,
      rateHz: take.rateHz,
      clips,
      tailSeconds,
      onProgress: (done, what) => options.onProgress?.(returnsShare * done, what),
    },
    threads,
  );
  return { ...work, options: { ...options, rig }, choice };
}

/** What was measured of a sound, and where it waits to be encoded. */
interface Track {
  readonly reading: Reading;
  readonly spool: string;
}

/** What a wiring gives with its free LFOs at other phases, by its id. */
type Phases = ReadonlyMap<string, readonly Reading[]>;

async function renderAll(
  { options, choice, clips, threads }: Work,
  folder: string,
): Promise<{ frames: number; tracks: readonly Track[]; phases: Phases }> {
  const { rig, take } = options;
  const shown = [{ id: dryId, wiring: dryWiring(rig.instrument) }, ...choice.routings.flatMap(possible)];
  const others = shown.flatMap(({ id, wiring }) =>
    otherPhases(wiring).map((other, n) => ({ of: id, id: `${id} (phase ${n + 2})`, wiring: other })),
  );
  const wirings = [...shown, ...others];
  const shares = partition(
    wirings.map(({ wiring }) => wiring),
    threads.count,
    { rateHz: take.rateHz, clips },
  );
  const progress = new Int32Array(new SharedArrayBuffer(4 * shares.length));
  const meeting = newMeeting(meetingRounds);
  const jobs = shares.map((members, part): Job => {
    const job = {
      wirings: members.map((n) => wirings[n]),
      take: take.samples ?? take.spool,
      rateHz: take.rateHz,
      clips,
      tail: tailRule(rig, options.tailSeconds),
    };
    return { kind: "render", job, share: { part, parts: shares.length, meeting, progress, folder } };
  });
  const tell = () => {
    const done = Math.min(...progress) / Math.max(1, take.frames);
    options.onProgress?.(returnsShare + renderShare * done, `rendering ${shown.length - 1} routings`);
  };
  const timer = setInterval(tell, 100);
  try {
    const outcomes = await Promise.all(jobs.map((job) => threads.run(job)));
    const parts = outcomes.flatMap(({ part }) => part ?? []);
    const tracks = new Map(
      parts.flatMap(({ readings }, part) =>
        readings.map((reading, n) => [reading.id, { reading, spool: spoolPath(folder, part, n) }]),
      ),
    );
    const phases = new Map<string, readonly Reading[]>();
    for (const { of, id } of others) {
      const { reading } = tracks.get(id) ?? {};
      if (reading) phases.set(of, [...(phases.get(of) ?? []), reading]);
    }
    return { frames: parts[0].frames, tracks: shown.flatMap(({ id }) => tracks.get(id) ?? []), phases };
  } finally {
    clearInterval(timer);
  }
}

async function encodeAll(
  { options, output, threads }: Work,
  frames: number,
  tracks: readonly Track[],
  gainDb: ReadonlyMap<string, number>,
  names: ReadonlyMap<string, string>,
): Promise<void> {
  let done = 0;
  const encode = async ({ reading: { id }, spool }: Track): Promise<void> => {
    const name = names.get(id) ?? id;
    const job = {
      spool,
      frames,
      rateHz: options.take.rateHz,
      bits: options.bits,
      gainDb: gainDb.get(id) ?? 0,
      stereo: join(output.folder, `${name}.wav`),
      mono: id === dryId ? null : join(output.folder, `${name}.mono.wav`),
    };
    await threads.run({ kind: "encode", job });
    done++;
    const before = returnsShare + renderShare;
    options.onProgress?.(before + ((1 - before) * done) / tracks.length, `writing ${name}.wav`);
  };
  await Promise.all(tracks.map(encode));
}

const possible = ({ id, wiring }: Routing) => (wiring ? [{ id, wiring }] : []);

/** File names of the routings by id; the ids are words of ours, but for hand-drawn ones. */
function fileNames(routings: readonly Pick<Routing, "id">[]): ReadonlyMap<string, string> {
  const ids = [dryId, ...routings.map(({ id }) => id)];
  const names = uniqueFileNames(ids);
  return new Map(ids.map((id, n) => [id, names[n]]));
}

/** Refuses renders that no WAV file can hold, before any work is done. */
function checkLength(frames: number, tailSeconds: number, rateHz: number, bits: number): void {
  const bytes = (frames + secondsToFrames(tailSeconds, rateHz)) * 2 * (bits / 8);
  if (bytes >= 2 ** 32 - 4096) {
    throw new UserError(
      `a stereo file of this take would need ${(bytes / 2 ** 30).toFixed(1)} GiB; a WAV file holds 4. Cut the take, or use --bits 16.`,
    );
  }
}
