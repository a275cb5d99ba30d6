import { join } from "node:path";
import type { Routing } from "../../rig/routings/routing.js";
import { dryId, dryWiring } from "../../rig/wiring/dryWiring.js";
import { otherPhases } from "../../rig/wiring/freeLfos.js";
import { partition } from "../../work/compare/partition.js";
import { meetingRounds } from "../../work/compare/renderPart.js";
import type { Reading } from "../../work/render/reading.js";
import { tailRule } from "../../work/render/tail.js";
import { newMeeting } from "../threads/meeting.js";
import type { Prepared } from "./prepare.js";
import type { Job } from "./renderJobs.js";
import { heldBytesEach, type Spool } from "./spool.js";
import type { Threads } from "./threads.js";

/** What was measured of a sound, and where it waits to be encoded. */
export interface Track {
  readonly reading: Reading;
  readonly spool: Spool;
}

/** The sounds of a comparison, all of one length. */
export interface Tracks {
  readonly frames: number;
  /** The dry take, the routings that are possible, recordings of the real rig. */
  readonly tracks: readonly Track[];
  /** What a wiring gives with its free LFOs at other phases, by its id. */
  readonly phases: ReadonlyMap<string, readonly Reading[]>;
}

/** Renders all wirings, shared out among the threads, and measures them and the recordings; sounds go into `folder`. */
export async function renderTracks(
  prepared: Prepared,
  threads: Threads,
  folder: string,
  onProgress: (done: number, what: string) => void,
): Promise<Tracks> {
  const rendered = await renderWirings(prepared, threads, folder, onProgress);
  const recorded = await measureRecordings(prepared, rendered.frames, threads, folder);
  return { ...rendered, tracks: [...rendered.tracks, ...recorded] };
}

async function renderWirings(
  prepared: Prepared,
  threads: Threads,
  folder: string,
  onProgress: (done: number, what: string) => void,
): Promise<Tracks> {
  const { rig, take } = prepared.options;
  const shown = [
    { id: dryId, wiring: dryWiring(rig.instrument) },
    ...prepared.choice.routings.flatMap(possible),
  ];
  const others = shown.flatMap(({ id, wiring }) =>
    otherPhases(wiring).map((other, n) => ({ of: id, id: `${id} (phase ${n + 2})`, wiring: other })),
  );
  const jobs = renderJobs(prepared, [...shown, ...others], threads.count, folder);
  const { progress } = jobs[0].share;
  const tell = () => {
    const done = Math.min(...progress) / Math.max(1, take.frames);
    onProgress(done, `rendering ${shown.length - 1} routings`);
  };
  const timer = setInterval(tell, 100);
  try {
    const outcomes = await Promise.all(jobs.map((job) => threads.run(job)));
    const parts = outcomes.flatMap(({ part }) => part ?? []);
    const spools = outcomes.flatMap((outcome) => outcome.spools ?? []);
    const tracks = new Map(
      parts
        .flatMap(({ readings }) => readings)
        .map((reading, n): [string, Track] => [reading.id, { reading, spool: spools[n] }]),
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

const possible = ({ id, wiring }: Routing) => (wiring ? [{ id, wiring }] : []);

type RenderWork = Extract<Job, { kind: "render" }>;

/** A job a share of the wirings; all tell of their progress in one array. */
function renderJobs(
  { options, clips }: Prepared,
  wirings: RenderWork["job"]["wirings"],
  threads: number,
  folder: string,
): readonly RenderWork[] {
  const { rig, take, tailSeconds } = options;
  const shares = partition(
    wirings.map(({ wiring }) => wiring),
    threads,
    { rateHz: take.rateHz, clips },
  );
  const progress = new Int32Array(new SharedArrayBuffer(4 * shares.length));
  const meeting = newMeeting(meetingRounds);
  const heldBytes = heldBytesEach(wirings.length, take.frames);
  return shares.map((members, part): RenderWork => {
    const job = {
      wirings: members.map((n) => wirings[n]),
      take: take.samples ?? take.spool,
      rateHz: take.rateHz,
      clips,
      tail: tailRule(rig, tailSeconds),
    };
    return {
      kind: "render",
      job,
      share: { part, parts: shares.length, meeting, progress, folder, heldBytes },
    };
  });
}

/** Brings recordings of the real rig to the length of the renders, and measures them. */
function measureRecordings(
  { recordings, options }: Prepared,
  frames: number,
  threads: Threads,
  folder: string,
): Promise<readonly Track[]> {
  const { rateHz } = options.take;
  return Promise.all(
    recordings.map(async (recording, n): Promise<Track> => {
      const path = join(folder, `recording-${n}.f32`);
      const job = { recording, rateHz, frames, path };
      const { recorded: reading, spools: [spool] = [] } = await threads.run({ kind: "recording", job });
      if (!reading) throw new Error("a recording was not measured");
      return { spool, reading };
    }),
  );
}
