import { join } from "node:path";
import { initialiseFft } from "../../sound/dsp/fft.js";
import { UserError } from "../../text/userError.js";
import { type PartJob, type PartResult, renderPart } from "../../work/compare/renderPart.js";
import { measureStates, type StateLevels, type StatesJob } from "../../work/switches/measureStates.js";
import { readerOf, type SpooledTake } from "../audio/takeSpool.js";
import { meet } from "../threads/meeting.js";
import { type EncodeJob, encodeRouting } from "./encodeRouting.js";
import { SpoolWriter } from "./spool.js";

/** A part's job as it travels: the take on a SharedArrayBuffer, or on disk. */
export type RenderJob = Omit<PartJob, "take"> & { readonly take: Float32Array | SpooledTake };

/** Work that any thread can do. */
export type Job =
  | { readonly kind: "render"; readonly job: RenderJob }
  | { readonly kind: "encode"; readonly job: EncodeJob }
  | {
      readonly kind: "states";
      /** `progress[part]` is told the frames done. */
      readonly job: StatesJob & { readonly progress: Int32Array; readonly part: number };
    };

/** A result, or what a person can mend: errors lose their fields between threads, so they travel as data. */
export type Outcome =
  | {
      readonly ok: true;
      readonly result: PartResult | null;
      readonly states?: readonly StateLevels[];
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
      const { progress, part } = job.job;
      const states = measureStates(job.job, (frames) => {
        progress[part] = frames;
      });
      return { ok: true, result: null, states };
    }
    const { meeting, parts } = job.job;
    const agree = (needed: number, round: number) => (meeting ? meet(meeting, round, needed, parts) : needed);
    const { folder, part } = job.job;
    const openTrack = (_id: string, n: number) => new SpoolWriter(join(folder, `${part}-${n}.f32`));
    const { take } = job.job;
    const source = take instanceof Float32Array ? take : readerOf(take);
    return { ok: true, result: renderPart({ ...job.job, take: source }, openTrack, agree) };
  } catch (error) {
    if (error instanceof UserError) return { ok: false, faults: error.faults, exitStatus: error.exitStatus };
    throw error;
  }
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
