import type { ReturnTrims, Rig } from "../../rig/model/rig.js";
import { routingNamed } from "../../rig/routings/routingsOf.js";
import {
  type HeldTake,
  perChannel,
  type StereoTake,
  type TakeChannelSource,
  type TakeSource,
} from "../../sound/audio/takeSource.js";
import { initialiseFft } from "../../sound/dsp/fft.js";
import { type PartJob, type PartResult, renderPart } from "../../work/compare/renderPart.js";
import { measureRecording } from "../../work/recordings/measureRecording.js";
import type { Recording } from "../../work/recordings/recording.js";
import type { Reading } from "../../work/render/reading.js";
import { measuredReturns } from "../../work/returns/measuredReturns.js";
import { measureStates, type StateLevels, type StatesJob } from "../../work/switches/measureStates.js";
import { readerOf, type SpooledTake } from "../audio/takeSpool.js";
import { meet } from "../threads/meeting.js";
import { Stopwatch } from "../threads/stopwatch.js";
import { stopIfTold } from "../threads/thread.js";
import { type EncodeJob, encodeRouting } from "./encodeRouting.js";
import { type Spool, SpoolWriter, spoolPath } from "./spool.js";

/** A part's job as it travels: the take on a SharedArrayBuffer, or on disk. */
export type RenderJob = Omit<PartJob, "take"> & {
  readonly take: HeldTake | SpooledTake | StereoTake<SpooledTake>;
};

/** Which part of the work a job is; `progress[part]` is told the frames done. */
interface Share {
  readonly part: number;
  readonly progress: Int32Array;
}

/** How a part meets the others, and the folder for its spools. */
interface RenderShare extends Share {
  readonly parts: number;
  readonly meeting: Int32Array;
  readonly folder: string;
  /** Of each wiring, in memory. */
  readonly heldBytes: number;
}

/** Work that any thread can do. */
export type Job =
  | { readonly kind: "render"; readonly job: RenderJob; readonly share: RenderShare }
  | { readonly kind: "encode"; readonly job: EncodeJob }
  | { readonly kind: "recording"; readonly job: RecordingJob }
  | { readonly kind: "states"; readonly job: StatesJob; readonly share: Share }
  | { readonly kind: "returns"; readonly job: ReturnsWork; readonly share: Share };

/** A recording to be measured, and where its sound goes. */
interface RecordingJob {
  readonly recording: Recording;
  readonly rateHz: number;
  readonly frames: number;
  readonly path: string;
}

/** Returns to be measured: those of the plans of a rig, by their ids. */
interface ReturnsWork extends Pick<RenderJob, "take" | "rateHz" | "clips"> {
  readonly rig: Rig;
  readonly plans: readonly string[];
  readonly tailSeconds: number;
}

/** What came of a job: the one that its kind gives; of `encode` nothing. */
export interface Outcome {
  /** What its time went into, in ms. */
  readonly stages: ReadonlyMap<string, number>;
  readonly part?: PartResult;
  readonly recorded?: Reading;
  /** The sounds of a part, in the order of its wirings, or that of a recording. */
  readonly spools?: readonly Spool[];
  readonly states?: readonly StateLevels[];
  readonly returns?: ReturnTrims;
}

/** Does one job in the thread it is called in. */
export async function doJob(job: Job): Promise<Outcome> {
  const watch = new Stopwatch(job.kind);
  const done = await resultOf(job, watch);
  watch.at("");
  return { ...done, stages: watch.stages };
}

async function resultOf(job: Job, watch: Stopwatch): Promise<Omit<Outcome, "stages">> {
  if (job.kind === "encode") {
    encodeRouting(job.job);
    return {};
  }
  if (job.kind === "recording") {
    const { recording, path, ...how } = job.job;
    // They come after all renders, which may fill the memory there is for sound.
    const sink = new SpoolWriter(path, 0);
    const recorded = measureRecording(recording, { ...how, sink, onPiece: stopIfTold });
    return { recorded, spools: [sink.spool] };
  }
  await initialiseFft();
  if (job.kind === "states") return { states: measureStates(job.job, tellOf(job.share)) };
  if (job.kind === "returns") return { returns: measureShare(job.job, job.share) };
  return renderShare(job.job, job.share, watch);
}

function measureShare({ rig, plans, take, ...sound }: ReturnsWork, share: Share): ReturnTrims {
  const routings = plans.map((id) => routingNamed(rig, id)).filter((routing) => typeof routing !== "string");
  return measuredReturns(rig, routings, {
    ...sound,
    take: heldOrRead(take),
    onFrames: tellOf(share),
  });
}

/** Tells how far a part is; ends it when its thread is to end. */
const tellOf =
  ({ part, progress }: Share) =>
  (frames: number): void => {
    progress[part] = frames;
    stopIfTold();
  };

const heldOrRead = (take: RenderJob["take"]): TakeSource =>
  perChannel(
    take,
    (channel: Float32Array | SpooledTake): TakeChannelSource =>
      channel instanceof Float32Array ? channel : readerOf(channel),
  );

function renderShare(
  job: RenderJob,
  share: RenderShare,
  watch: Stopwatch,
): Required<Pick<Outcome, "part" | "spools">> {
  const { part, parts, meeting, folder, heldBytes } = share;
  const writers = job.wirings.map((_, n) => new SpoolWriter(spoolPath(folder, part, n), heldBytes));
  const result = renderPart(
    { ...job, take: heldOrRead(job.take) },
    {
      openTrack: (n) => writers[n],
      agree: (needed, round) => meet(meeting, round, needed, parts),
      onFrames: tellOf(share),
      onStage: (stage) => watch.at(stage),
    },
  );
  return { part: result, spools: writers.map(({ spool }) => spool) };
}
