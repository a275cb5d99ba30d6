import type { ReturnTrims } from "../../../rig/model/rig.js";
import type { StateLevels } from "../../../work/switches/measureStates.js";
import type { CaptureResult } from "./captureJob.js";
import type { EngineJob, FiguresResult, ResponsesResult, SoundResult } from "./engineJobs.js";

export type ToWorker =
  | { readonly kind: "start"; readonly fftBinary: Uint8Array }
  | { readonly kind: "job"; readonly job: EngineJob };

export type FromWorker =
  | { readonly kind: "progress"; readonly frames: number }
  | { readonly kind: "sound"; readonly result: SoundResult }
  | { readonly kind: "responses"; readonly result: ResponsesResult }
  | { readonly kind: "figures"; readonly result: FiguresResult }
  | { readonly kind: "states"; readonly result: readonly StateLevels[] }
  | { readonly kind: "returns"; readonly result: ReturnTrims }
  | { readonly kind: "capture"; readonly result: CaptureResult }
  | { readonly kind: "fault"; readonly message: string };
