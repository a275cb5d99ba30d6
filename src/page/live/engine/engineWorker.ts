import type { ReturnTrims } from "../../../rig/model/rig.js";
import { chooseRoutings } from "../../../rig/routings/chooseRoutings.js";
import { initialiseFft } from "../../../sound/dsp/fft.js";
import { measuredReturns } from "../../../work/returns/measuredReturns.js";
import { measureStates } from "../../../work/switches/measureStates.js";
import { readCapture } from "./captureJob.js";
import type { EngineJob, PageReturnsJob } from "./engineJobs.js";
import type { FromWorker, ToWorker } from "./engineMessages.js";
import { readFigures } from "./measuringJob.js";
import { responseNeeds } from "./responsesJob.js";
import { renderSound } from "./soundJob.js";

/** The worker of the page: does one job after the other, tells how far it is, and hands the sound over without a copy. */
addEventListener("message", ({ data }: MessageEvent<ToWorker>) => {
  if (data.kind === "start") ready = initialiseFft(data.fftBinary);
  else void ready.then(() => doJob(data.job)).catch(tellFault);
});

let ready = Promise.resolve();

/** Milliseconds between two words about progress. */
const progressMs = 50;

function doJob(job: EngineJob): void {
  let told = 0;
  const onFrames = (frames: number) => {
    const now = performance.now();
    if (now - told < progressMs) return;
    told = now;
    tell({ kind: "progress", frames });
  };
  if (job.kind === "responses") tell({ kind: "responses", result: responseNeeds(job) });
  else if (job.kind === "figures") tell({ kind: "figures", result: readFigures(job, onFrames) });
  else if (job.kind === "returns") tell({ kind: "returns", result: measuredNow(job, onFrames) });
  else if (job.kind === "capture") tell({ kind: "capture", result: readCapture(job) });
  else if (job.kind === "states") tell({ kind: "states", result: measureStates(job, onFrames) });
  else {
    const result = renderSound(job, onFrames);
    const buffers = result.tracks.flatMap(({ channels }) => channels.map(({ buffer }) => buffer));
    tell({ kind: "sound", result }, buffers);
  }
}

function measuredNow(
  { rig, ids, ...sound }: PageReturnsJob,
  onFrames: (frames: number) => void,
): ReturnTrims {
  const { routings } = chooseRoutings(rig, ids, null);
  return measuredReturns(rig, routings, { ...sound, onFrames });
}

function tellFault(error: unknown): void {
  console.error(error);
  tell({ kind: "fault", message: error instanceof Error ? error.message : String(error) });
}

function tell(message: FromWorker, transfer: ArrayBufferLike[] = []): void {
  postMessage(message, { transfer: transfer.filter((buffer) => buffer instanceof ArrayBuffer) });
}
