import { type Place, placeChoices } from "../../model/rig.js";
import { beside } from "./beside.js";
import { besideAfter } from "./besideAfter.js";
import { doubled } from "./doubled.js";
import { first } from "./first.js";
import { left, right } from "./oneSide.js";
import type { PlaceRule } from "./placeRule.js";
import { stereo } from "./stereo.js";
import { summed } from "./summed.js";

/** Places in the order in which they are told. */
export const places = placeChoices;

export const placeRules: Readonly<Record<Place, PlaceRule>> = {
  first,
  doubled,
  beside,
  "beside-after": besideAfter,
  left,
  right,
  summed,
  stereo,
};
