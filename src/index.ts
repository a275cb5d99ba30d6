/**
 * The library: everything that the commands do, for a program. What is not listed here is free to change.
 *
 *     const rig = await readRig("rig.yaml");
 *     const take = await readTake("take.wav", { channel: "mean", allowTruncated: false });
 *     const { report } = await compare({ rig, rigFile: "rig.yaml", take, outDir: "out", ... });
 */

// Recordings of the real rig
export { type AlignedRecording, alignRecording } from "./also/alignRecording.js";
export type { AlsoWord } from "./also/recording.js";
// Sound files
export { type Clip, framesOf } from "./audio/clip.js";
export { type RecordedClip, readClip } from "./audio/readClip.js";
export { resample } from "./audio/resample.js";
export {
  closeTake,
  type LongTake,
  readAnyTake,
  readTake,
  samplesOf,
  type Take,
  type TakeFacts,
  type TakeOptions,
} from "./audio/take.js";
export type { TakeChannel } from "./audio/takeNotices.js";
export type { SpooledTake } from "./audio/takeSpool.js";
export type { WavBits, WavFormat } from "./audio/wavHead.js";
export { openWav, type WavWriter } from "./audio/wavWriter.js";
export { writeClip } from "./audio/writeClip.js";
// A real unit
export { type Alignment, type AlignOptions, align } from "./capture/align.js";
export type { CaptureFacts } from "./capture/captureFacts.js";
export type { DryLeak } from "./capture/firstArrival.js";
export type { HarmonicFacts } from "./capture/harmonics.js";
export type { LevelCheck } from "./capture/levelCheck.js";
export type { Bandwidth } from "./capture/passband.js";
export type { SideName } from "./capture/recordedSides.js";
export { type CaptureOptions, type CaptureResponse, responseOf } from "./capture/response.js";
export { responseRigLines } from "./capture/responseRigLines.js";
export type { TimeVariance } from "./capture/timeVariance.js";
export { makeTone, type ToneDescription } from "./capture/tone.js";
export { type ToneSettings, toneSettingTable } from "./capture/toneSettings.js";
// The main job
export { type CompareOptions, compare } from "./compare/compare.js";
// The same by a second engine
export { type BuildUse, buildWiring } from "./crosscheck/buildWiring.js";
export { type CrosscheckedRouting, type CrosscheckOptions, crosscheck } from "./crosscheck/crosscheck.js";
export type { CrosscheckReport } from "./crosscheck/crosscheckReport.js";
export { type CrosscheckRigOptions, crosscheckRig } from "./crosscheck/crosscheckRig.js";
export { type Difference, differenceOf } from "./crosscheck/difference.js";
export type {
  BiquadType,
  StandardBiquad,
  StandardBuffer,
  StandardContext,
  StandardConvolver,
  StandardDelay,
  StandardGain,
  StandardNode,
  StandardOfflineContext,
  StandardOscillator,
  StandardParam,
  StandardShaper,
  StandardSource,
} from "./crosscheck/webAudio.js";
export { isTimeInvariant, whyNotStandard } from "./crosscheck/whyNotStandard.js";
// The engine
export { initialiseFft } from "./dsp/fft.js";
// Pedals
export type {
  Block,
  ChoiceSetting,
  FileSetting,
  Kernel,
  NumberSetting,
  Setting,
  Settings,
  SettingTable,
  SettingValue,
  SwitchSetting,
} from "./dsp/kernel.js";
// Measures
export { balanceDb } from "./measure/balance.js";
export { correlation } from "./measure/correlation.js";
export { correlationOverTime } from "./measure/correlationOverTime.js";
export { type DecayReading, decayTimes } from "./measure/decay.js";
export { foldDownLossDb } from "./measure/foldDown.js";
export { iacc } from "./measure/iacc.js";
export { integratedLufs, momentaryMaxLufs, shortTermMaxLufs } from "./measure/loudness.js";
export { loudnessRangeLu } from "./measure/loudnessRange.js";
export { type LevelReading, type Matching, matchGains } from "./measure/match.js";
export type {
  BandMeasures,
  Comb,
  CorrelationOverTime,
  Decay,
  Measures,
  ThirdMeasures,
} from "./measure/measures.js";
export { sideShare, sideToMidDb } from "./measure/sideShare.js";
export { measureClip, StereoMeter } from "./measure/stereoMeter.js";
export { truePeakDbtp } from "./measure/truePeak.js";
export { type References, withReference } from "./measure/withReference.js";
export { pedalModels } from "./pedals/models.js";
export type { Blend, PedalModel, PedalUse } from "./pedals/pedalModel.js";
export { type CompileOptions, compile, type Press } from "./render/compile.js";
export type { Graph } from "./render/graph.js";
export { type RenderOptions, render, type Sink, type TailRule } from "./render/render.js";
export type { TakeReader, TakeSource } from "./render/takeSource.js";
export type { RecordedFacts, Report, RoutingReport } from "./report/report.js";
// Rigs
export { parseRig } from "./rig/parseRig.js";
export { readRig } from "./rig/readRig.js";
export {
  type BoxFacts,
  type BuyableBox,
  boxChoices,
  type CableFacts,
  type HandBox,
  type HandWiring,
  type JackFacts,
  type Jacks,
  jackChoices,
  type LevelReference,
  type MixerSettings,
  type OnHand,
  type Pedal,
  type PlaysInto,
  playsIntoChoices,
  type Rig,
  type SizeMm,
  type Supply,
  type SweepWords,
} from "./rig/rig.js";
export { toYaml } from "./rig/toYaml.js";
export type { Axis, AxisGroup } from "./rig/vary.js";
// Wirings
export { type Routing, type RoutingId, routingIds } from "./routings/routing.js";
export { routingsOf } from "./routings/routingsOf.js";
// Levels and loading
export { gainStaging, type StagingJob } from "./staging/gainStaging.js";
export { type Load, type Loading, loadingOf, type SplitLoad } from "./staging/loading.js";
export type { BoxLevel, CableLevel, FirstClip, Level, StagedRouting, SumLevel } from "./staging/staging.js";
// Sweeps
export type { Figure } from "./sweep/figures.js";
export type { Shard } from "./sweep/layout.js";
export { type Merged, type MergeOptions, merge } from "./sweep/merge.js";
export type { SweepRequest } from "./sweep/planSweep.js";
export { type PreparedSweep, prepareSweep, type SweepOptions } from "./sweep/prepareSweep.js";
export type { Spread } from "./sweep/spread.js";
export { type SweepDone, sweep } from "./sweep/sweep.js";
export type { BestResult, SweepReport } from "./sweep/sweepReport.js";
export type { Aim, Comparison, Wish, Wishes, WishWords } from "./sweep/wishes.js";
// Footswitches
export type { StateChoice } from "./switches/chooseStates.js";
export { lookAtSwitches, type SwitchesOptions } from "./switches/lookAtSwitches.js";
export { type PressJob, renderPress } from "./switches/renderPress.js";
export { type SwitchSection, sectionOf } from "./switches/section.js";
export type { Noticed, SwitchSummary } from "./switches/summary.js";
export type { Cure, Flag, RoutingSwitches, StateReading, SwitchStep } from "./switches/switches.js";
export type { FlagKind, Threshold } from "./switches/thresholds.js";
export { type PressesOptions, type PressWord, writePresses } from "./switches/writePresses.js";
// What a person can mend
export { type Fault, UserError } from "./userError.js";
// What a wiring is built from
export {
  type BuildSheet,
  buildSheet,
  type Drawn,
  type SheetCable,
  type SheetPart,
} from "./wiring/buildSheet.js";
export { checkWiring, type WiringFault } from "./wiring/check.js";
export { combOf, type DryPath, dryPaths, sideDelayMs } from "./wiring/dryPaths.js";
export {
  type Box,
  type Cable,
  type DestinationBox,
  inputJacks,
  type Jack,
  type MixerBox,
  type MixerInput,
  outputJacks,
  type PedalBox,
  type SplitterBox,
  type SummingBox,
  type TakeBox,
  type Wiring,
} from "./wiring/wiring.js";
