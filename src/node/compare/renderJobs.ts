import type { ReturnTrims, Rig } from "../../rig/model/rig.js";
import { routingNamed } from "../../rig/routings/routingsOf.js";
import { initialiseFft } from "../../sound/dsp/fft.js";
import { UserError } from "../../text/userError.js";
import { type PartJob, type PartResult, renderPart } from "../../work/compare/renderPart.js";
import { measuredReturns } from "../../work/returns/measuredReturns.js";
import { measureStates, type StateLevels, type StatesJob } from "../../work/switches/measureStates.js";
import { readerOf, type SpooledTake } from "../audio/takeSpool.js";
import { meet } from "../threads/meeting.js";
import { type EncodeJob, encodeRouting } from "./encodeRouting.js";
import { SpoolWriter, spoolPath } from "./spool.js";

/** A part's job as it travels: the take on a SharedArrayBuffer, or on disk. */
export type RenderJob = Omit<PartJob, "take"> & { readonly take: Float32Array | SpooledTake };

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
}

/** Work that any thread can do. */
export type Job =
  | { readonly kind: "render"; readonly job: RenderJob; readonly share: RenderShare }
  | { readonly kind: "encode"; readonly job: EncodeJob }
  | { readonly kind: "states"; readonly job: StatesJob; readonly share: Share }
  | { readonly kind: "returns"; readonly job: ReturnsWork; readonly share: Share };

/** Returns to be measured: those of the plans of a rig, by their ids. */
interface ReturnsWork extends Pick<RenderJob, "take" | "rateHz" | "clips"> {
  readonly rig: Rig;
  readonly plans: readonly string[];
  readonly tailSeconds: number;
}

/** A result, or what a person can mend: errors lose their fields between threads, so they travel as data. */
export type Outcome =
  | {
      readonly ok: true;
      readonly result: PartResult | null;
      readonly states?: readonly StateLevels[];
      readonly returns?: ReturnTrims;
    }
  | {
      readonly ok: false;
      readonly faults: UserError["faults"];
      readonly exitStatus: UserError["exitStatus"];
    };

/** Does one job in the thread it is called in. Bugs are thrown on. */
export async function doJob(job: Job): Promise<Outcome> {
  try {
    if (job.kind === "encode") {
      encodeRouting(job.job);
      return { ok: true, result: null };
    }
    await initialiseFft();
    if (job.kind === "states") {
      const { progress, part } = job.share;
      const states = measureStates(job.job, (frames) => {
        progress[part] = frames;
      });
      return { ok: true, result: null, states };
    }
    if (job.kind === "returns") return { ok: true, result: null, returns: measureShare(job.job, job.share) };
    return { ok: true, result: renderShare(job.job, job.share) };
  } catch (error) {
    if (error instanceof UserError) return { ok: false, faults: error.faults, exitStatus: error.exitStatus };
    throw error;
  }
}

function measureShare({ rig, plans, take, ...sound }: ReturnsWork, { part, progress }: Share): ReturnTrims {
  const routings = plans.map((id) => routingNamed(rig, id)).filter((routing) => typeof routing !== "string");
  return measuredReturns(rig, routings, {
    ...sound,
    take: heldOrRead(take),
    onFrames: (done) => {
      progress[part] = done;
    },
  });
}

const heldOrRead = (take: RenderJob["take"]) => (take instanceof Float32Array ? take : readerOf(take));

function renderShare(job: RenderJob, { part, parts, meeting, progress, folder }: RenderShare): PartResult {
  return renderPart(
    { ...job, take: heldOrRead(job.take) },
    {
      openTrack: (n) => new SpoolWriter(spoolPath(folder, part, n)),
      agree: (needed, round) => meet(meeting, round, needed, parts),
      onFrames: (done) => {
        progress[part] = done;
      },
    },
  );
}

/** The result of an outcome. @throws UserError when it was none */
export function resultOf(outcome: Outcome): PartResult | null {
  if (outcome.ok) return outcome.result;
  throw new UserError(outcome.faults, outcome.exitStatus);
}

/** What a job of states found. @throws UserError when it could not */
export function statesOf(outcome: Outcome): readonly StateLevels[] {
  if (outcome.ok) return outcome.states ?? [];
  throw new UserError(outcome.faults, outcome.exitStatus);
}

/** What a job of returns found. @throws UserError when it could not */
export function returnsOf(outcome: Outcome): ReturnTrims {
  if (outcome.ok) return outcome.returns ?? {};
  throw new UserError(outcome.faults, outcome.exitStatus);
}
