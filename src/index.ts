/**
 * The library: everything that the commands do, for a program. What is not listed here is free to change.
 *
 * Every function below has an example in its own file. A rig is read first, then a take; the rest works on the two.
 */

// Read a rig, or write one

export { writeDemo } from "./demo/writeDemo.js";
export { readRig } from "./node/rig/readRig.js";
export { parseRig } from "./rig/file/parseRig.js";
export { rigJsonSchema } from "./rig/file/rigJsonSchema.js";
export { toYaml } from "./rig/file/toYaml.js";
export type { Pedal, Rig } from "./rig/model/rig.js";
export { pedalModels } from "./rig/pedals/models.js";

// Read a take, or any recording

export { type RecordedClip, readClip } from "./node/audio/readClip.js";
export { closeTake, type LongTake, readAnyTake, readTake, type TakeOptions } from "./node/audio/readTake.js";
export { writeClip } from "./node/audio/writeClip.js";
export type { Clip } from "./sound/audio/clip.js";
export type { Take } from "./sound/audio/take.js";

// List the routings, and how to build each

export type { Routing, RoutingId } from "./rig/routings/routing.js";
export { routingsOf } from "./rig/routings/routingsOf.js";
export { optionsOf } from "./work/options/optionsOf.js";
export type { OptionsReport } from "./work/options/optionsReport.js";

// Compare them: the main job

export { compare } from "./node/compare/compare.js";
export type { CompareOptions } from "./node/compare/compareOptions.js";
export { type CompareTakesOptions, compareTakes } from "./node/compare/compareTakes.js";
export type { Report, RoutingReport } from "./work/compare/report.js";
export type { TakesReport } from "./work/compare/takesReport.js";
export type { RecordingWord } from "./work/recordings/recording.js";

// Measure recordings

export { measureFiles } from "./node/recordings/measureFiles.js";
export type { Measures } from "./sound/measure/measures.js";
export { measureClip } from "./sound/measure/stereoMeter.js";
export type { MeasuredReport } from "./work/recordings/measured.js";

// Sweep settings, rank them, hear the best

export { type Merged, type MergeOptions, merge } from "./node/sweep/merge.js";
export { type PreparedSweep, prepareSweep, type SweepOptions, sweepSize } from "./node/sweep/prepareSweep.js";
export { type RenderBestOptions, renderBest } from "./node/sweep/renderBest.js";
export { type SweepDone, sweep } from "./node/sweep/sweep.js";
export type { AxisGroup } from "./rig/model/axis.js";
export type { SweepRequest } from "./work/sweep/planSweep.js";
export type { SweepReport } from "./work/sweep/sweepReport.js";
export type { WishWords } from "./work/sweep/wishes.js";

// Footswitches

export { measureSwitches, type SwitchesOptions } from "./node/switches/measureSwitches.js";
export { type PressesOptions, type PressWord, writePresses } from "./node/switches/writePresses.js";
export type { StateChoice } from "./work/switches/chooseStates.js";
export type { RoutingSwitches } from "./work/switches/switchTypes.js";

// Levels and loading

export { levelsOf } from "./node/levels/levelsOf.js";
export type { LevelsReport } from "./work/levels/levelsReport.js";

// The same by a second engine

export { type CrosscheckRigOptions, crosscheckRig } from "./node/crosscheck/crosscheckRig.js";
export type { CrosscheckReport } from "./work/crosscheck/crosscheckReport.js";

// Measure a real unit

export {
  captureAlign,
  captureResponse,
  captureTone,
  type ResponseWords,
} from "./node/capture/captureJobs.js";
export type { AlignedFiles, CapturedResponse, WrittenTone } from "./work/capture/captured.js";
export type { ToneSettings } from "./work/capture/toneSettings.js";

// Prove a board on the bench

export { type PlanTonesOptions, planTones } from "./node/proof/planTones.js";
export { type ProveOptions, proveRig } from "./node/proof/proveRig.js";
export type { PlannedTones } from "./work/proof/plannedTones.js";
export type { ProofReport } from "./work/proof/proofReport.js";

// What a person can mend

export { type Fault, UserError } from "./text/userError.js";
