/**
 * The library: everything that the commands do, for a program. What is not listed here is free to change.
 *
 *     const rig = await readRig("rig.yaml");
 *     const take = await readTake("take.wav", { channel: "mean", allowTruncated: false });
 *     const { report } = await compare({ rig, rigFile: "rig.yaml", take, outDir: "out", ... });
 */

export { type RecordedClip, readClip } from "./node/audio/readClip.js";
export {
  closeTake,
  type LongTake,
  readAnyTake,
  readTake,
  samplesOf,
  type TakeOptions,
} from "./node/audio/readTake.js";
export { resample } from "./node/audio/resample.js";
export type { SpooledTake } from "./node/audio/takeSpool.js";
export { openWav, type WavWriter } from "./node/audio/wavWriter.js";
export { writeClip } from "./node/audio/writeClip.js";
// The main job
export { type CompareOptions, compare } from "./node/compare/compare.js";
export { type CrosscheckRigOptions, crosscheckRig } from "./node/crosscheck/crosscheckRig.js";
export { readRig } from "./node/rig/readRig.js";
export { type Merged, type MergeOptions, merge } from "./node/sweep/merge.js";
export { type PreparedSweep, prepareSweep, type SweepOptions } from "./node/sweep/prepareSweep.js";
export { type SweepDone, sweep } from "./node/sweep/sweep.js";
export { measureSwitches, type SwitchesOptions } from "./node/switches/measureSwitches.js";
export { type PressesOptions, type PressWord, writePresses } from "./node/switches/writePresses.js";
// Rigs
export { parseRig } from "./rig/file/parseRig.js";
export { toYaml } from "./rig/file/toYaml.js";
export type { Axis, AxisGroup } from "./rig/model/axis.js";
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
} from "./rig/model/rig.js";
export { pedalModels } from "./rig/pedals/models.js";
export type { Blend, PedalModel, PedalUse } from "./rig/pedals/pedalModel.js";
// Wirings
export { type Routing, type RoutingId, routingIds } from "./rig/routings/routing.js";
export { routingsOf } from "./rig/routings/routingsOf.js";
// What a wiring is built from
export { type BuildSheet, buildSheet, type DrawnRouting, type SheetCable } from "./rig/wiring/buildSheet.js";
export { checkWiring, type WiringFault } from "./rig/wiring/check.js";
export { combOf, type DryPath, dryPaths, sideDelayMs } from "./rig/wiring/dryPaths.js";
export type { SheetPart } from "./rig/wiring/parts.js";
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
} from "./rig/wiring/wiring.js";
// Sound files
export { type Clip, framesOf } from "./sound/audio/clip.js";
export type { Take, TakeFacts } from "./sound/audio/take.js";
export type { TakeChannel } from "./sound/audio/takeNotices.js";
export type { WavBits, WavFormat } from "./sound/audio/wavHead.js";
// The engine
export { initialiseFft } from "./sound/dsp/fft.js";
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
} from "./sound/dsp/kernel.js";
// Measures
export { balanceDb } from "./sound/measure/balance.js";
export type { BandDifferences, LevelledBand, OctaveBand } from "./sound/measure/band.js";
export { correlation } from "./sound/measure/correlation.js";
export { type CorrelationOverTime, correlationOverTime } from "./sound/measure/correlationOverTime.js";
export { type Decay, type DecayReading, decayTimes } from "./sound/measure/decay.js";
export type { Comb } from "./sound/measure/facts.js";
export { measuresOf } from "./sound/measure/fill.js";
export { foldDownLossDb } from "./sound/measure/foldDown.js";
export { iacc } from "./sound/measure/iacc.js";
export { integratedLufs, momentaryMaxLufs, shortTermMaxLufs } from "./sound/measure/loudness.js";
export { loudnessRangeLu } from "./sound/measure/loudnessRange.js";
export { type LevelReading, type Matching, matchGains } from "./sound/measure/match.js";
export type { Explained, Figure, References } from "./sound/measure/measure.js";
export { glossary, type Measures, type RigMeasures, type SoundMeasures } from "./sound/measure/measures.js";
export { sideShare, sideToMidDb } from "./sound/measure/sideShare.js";
export { measureClip, StereoMeter } from "./sound/measure/stereoMeter.js";
export { truePeakDbtp } from "./sound/measure/truePeak.js";
// What a person can mend
export { type Fault, UserError } from "./text/userError.js";
// A real unit
export { type Alignment, type AlignOptions, align } from "./work/capture/align.js";
export type { CaptureFacts } from "./work/capture/captureFacts.js";
export type { DryLeak } from "./work/capture/firstArrival.js";
export type { HarmonicFacts } from "./work/capture/harmonics.js";
export type { LevelCheck } from "./work/capture/levelCheck.js";
export { makeTone, type ToneDescription } from "./work/capture/makeTone.js";
export type { Bandwidth } from "./work/capture/passband.js";
export type { SideName } from "./work/capture/recordedSides.js";
export { type CaptureOptions, type CaptureResponse, responseOf } from "./work/capture/responseOf.js";
export { responseRigLines } from "./work/capture/responseRigLines.js";
export type { TimeVariance } from "./work/capture/timeVariance.js";
export { type ToneSettings, toneSettingTable } from "./work/capture/toneSettings.js";
export type { Report, RoutingReport } from "./work/compare/report.js";
// The same by a second engine
export { type BuildUse, buildWiring } from "./work/crosscheck/buildWiring.js";
export {
  type CrosscheckedRouting,
  type CrosscheckOptions,
  crosscheck,
} from "./work/crosscheck/crosscheck.js";
export type { CrosscheckReport } from "./work/crosscheck/crosscheckReport.js";
export { type Difference, differenceOf } from "./work/crosscheck/difference.js";
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
} from "./work/crosscheck/webAudio.js";
export { isTimeInvariant, whyNotStandard } from "./work/crosscheck/whyNotStandard.js";
// Levels and loading
export { type GainStagingJob, gainStaging } from "./work/levels/gainStaging.js";
export { type Load, type Loading, loadingOf, type SplitLoad } from "./work/levels/loading.js";
export type {
  BoxLevel,
  CableLevel,
  FirstClip,
  Level,
  SumLevel,
  WiringLevels,
} from "./work/levels/wiringLevels.js";
// Recordings of the real rig
export { type AlignedRecording, alignRecording } from "./work/recordings/alignRecording.js";
export type { RecordedFacts, RecordingWord } from "./work/recordings/recording.js";
export { type CompileOptions, compile, type Press } from "./work/render/compile.js";
export type { Graph } from "./work/render/graph.js";
export { type RenderOptions, render, type Sink, type TailRule } from "./work/render/render.js";
export type { TakeReader, TakeSource } from "./work/render/takeSource.js";
export type { SweepRequest } from "./work/sweep/planSweep.js";
export type { Spread } from "./work/sweep/spread.js";
// Sweeps
export type { Shard } from "./work/sweep/sweepLayout.js";
export type { BestResult, SweepReport } from "./work/sweep/sweepReport.js";
export type { Aim, Comparison, Wish, Wishes, WishWords } from "./work/sweep/wishes.js";
// Footswitches
export type { StateChoice } from "./work/switches/chooseStates.js";
export { type PressJob, renderPress } from "./work/switches/renderPress.js";
export type { Noticed, SwitchSummary } from "./work/switches/summary.js";
export { type SwitchSection, sectionOf } from "./work/switches/switchSection.js";
export type { Cure, Flag, RoutingSwitches, StateReading, SwitchStep } from "./work/switches/switchTypes.js";
export type { FlagKind, Threshold } from "./work/switches/thresholds.js";
