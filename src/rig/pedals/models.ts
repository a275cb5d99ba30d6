import { boost } from "./boost.js";
import { chorus } from "./chorus.js";
import { compressor } from "./compressor.js";
import { delay } from "./delay.js";
import { flanger } from "./flanger.js";
import { hall } from "./hall.js";
import { overdrive } from "./overdrive.js";
import type { PedalModel } from "./pedalModel.js";
import { phaser } from "./phaser.js";
import { plate } from "./plate.js";
import { response } from "./response.js";
import { speaker } from "./speaker.js";
import { spring } from "./spring.js";
import { tone } from "./tone.js";
import { tremolo } from "./tremolo.js";
import { vibrato } from "./vibrato.js";

/**
 * Every kind of pedal, by the word that a rig file uses for it. The one list: schema, help, page and messages read it.
 * @example
 * ```ts
 * import { pedalModels } from "splitsum";
 * console.log(Object.keys(pedalModels));
 * ```
 */
export const pedalModels: Readonly<Record<string, PedalModel>> = {
  chorus,
  vibrato,
  flanger,
  phaser,
  tremolo,
  delay,
  compressor,
  overdrive,
  tone,
  boost,
  speaker,
  plate,
  hall,
  spring,
  response,
};

/** The model of a word. @throws Error when there is none: a rig reader lets no such pedal in */
export function modelOf(word: string): PedalModel {
  const model = pedalModels[word];
  if (!model) throw new Error(`no model "${word}"`);
  return model;
}
