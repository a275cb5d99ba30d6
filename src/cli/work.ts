/**
 * What commands do their work with, loaded once their words are read: help and wrong words need none of it. One list, so
 * that the build makes few files of it: loading hundreds takes longer than running what is in them.
 */

export { demoRigs, writeDemo } from "../demo/writeDemo.js";
export { closeTake } from "../node/audio/readTake.js";
export { captureAlign, captureResponse, captureTone } from "../node/capture/captureJobs.js";
export { compare } from "../node/compare/compare.js";
export { compareTakes, compareTakesUnwritten } from "../node/compare/compareTakes.js";
export { compareUnwritten } from "../node/compare/compareUnwritten.js";
export { crosscheckRig } from "../node/crosscheck/crosscheckRig.js";
export { refuseOther, writeOwn } from "../node/files/ownFiles.js";
export { levelsOf } from "../node/levels/levelsOf.js";
export { benchPage } from "../node/page/benchPage.js";
export { planTones } from "../node/proof/planTones.js";
export { proveRig } from "../node/proof/proveRig.js";
export { measureFiles } from "../node/recordings/measureFiles.js";
export { readRig } from "../node/rig/readRig.js";
export { readRigAndTake } from "../node/rig/rigAndTake.js";
export { merge } from "../node/sweep/merge.js";
export { prepareSweep, sweepSize } from "../node/sweep/prepareSweep.js";
export { refuseBest, renderBest } from "../node/sweep/renderBest.js";
export { sweep } from "../node/sweep/sweep.js";
export { measuredRoutings } from "../node/switches/measuredRoutings.js";
export { measureSwitches } from "../node/switches/measureSwitches.js";
export { refusePresses, writePresses } from "../node/switches/writePresses.js";
export { rigJsonSchema } from "../rig/file/rigJsonSchema.js";
export { chooseRoutings } from "../rig/routings/chooseRoutings.js";
export { loadingNote } from "../rig/wiring/loadingNote.js";
export { refuseSilent } from "../sound/audio/take.js";
export { safeFileName } from "../text/fileName.js";
export { answerLead, answerText } from "../words/answerText.js";
export { answerWords } from "../words/answerWords.js";
export { alignText, responseText, toneText } from "../words/captureText.js";
export { crosscheckText } from "../words/crosscheckText.js";
export { levelsText } from "../words/levelsText.js";
export { measuredCsv, measuredText } from "../words/measuredText.js";
export { allPlansText, optionsText } from "../words/optionsText.js";
export { plannedTonesText } from "../words/plannedTonesText.js";
export { proofHtml } from "../words/proofHtml.js";
export { proofText } from "../words/proofText.js";
export { partText, sweepClosing, sweepPlanText } from "../words/sweepPlanText.js";
export { sweepText } from "../words/sweepText.js";
export { switchesJson } from "../words/switchesJson.js";
export { switchesText } from "../words/switchesText.js";
export { compareTable } from "../words/table.js";
export { takesAnswerWords, takesText } from "../words/takesWords.js";
export { missedFault } from "../work/crosscheck/crosscheckReport.js";
export { optionsOf } from "../work/options/optionsOf.js";
export { checkSwitchWord } from "../work/switches/chooseStates.js";
export { sectionOf } from "../work/switches/switchSection.js";
export { closingText, takesClosing } from "./closing.js";
export { comparePlan, planText } from "./comparePlan.js";
export { prepareCompare } from "./prepareCompare.js";
export { stoppable } from "./stoppable.js";
export { sweepOptions, wishesOf } from "./sweepWords.js";
