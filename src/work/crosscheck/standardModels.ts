import { standardBoost, standardSpeaker, standardTone } from "./filters.js";
import { standardPhaser } from "./phaser.js";
import { standardDelay } from "./repeats.js";
import { standardResponse } from "./responses.js";
import type { StandardModel } from "./standardModel.js";
import { standardChorus, standardFlanger, standardVibrato } from "./sweptDelays.js";
import { standardTremolo } from "./swungGain.js";

/** The models that can be made of standard nodes, by their words in `pedalModels`. */
export const standardModels: Readonly<Record<string, StandardModel>> = {
  boost: standardBoost,
  chorus: standardChorus,
  delay: standardDelay,
  flanger: standardFlanger,
  phaser: standardPhaser,
  response: standardResponse,
  speaker: standardSpeaker,
  tone: standardTone,
  tremolo: standardTremolo,
  vibrato: standardVibrato,
};

/** Why the others are not, as the end of a sentence. */
export const notStandard: Readonly<Record<string, string>> = {
  compressor: "the standard's DynamicsCompressorNode follows another law",
  hall: "it is a network of feedback loops, which this check does not build of standard nodes",
  overdrive: "the standard leaves open how an oversampled WaveShaperNode filters",
  plate: "it is a network of feedback loops, which this check does not build of standard nodes",
  spring: "its chain of all-passes runs at a sample rate of its own, which no standard node does",
};
