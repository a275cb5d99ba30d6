import { boost } from "./boost.js";
import type { PedalModel } from "./pedalModel.js";

/**
 * Every kind of pedal, by the word that a rig file uses for it. The one list: schema, help, page and messages read it.
 */
export const pedalModels: Readonly<Record<string, PedalModel>> = { boost };
