import type { Jacks, PlaysInto } from "../../../rig/model/rig.js";

/** Jacks by what is printed on a box. */
export const jackWords: readonly (readonly [Jacks, string])[] = [
  ["mono", "one input, one output"],
  ["mono-to-stereo", "one input, outputs left and right"],
  ["stereo", "inputs and outputs left and right"],
];

export const playsIntoWords: readonly (readonly [PlaysInto, string])[] = [
  ["stereo-desk", "a desk or interface, in stereo"],
  ["two-amps", "two amps"],
  ["one-amp", "one amp"],
  ["mono-desk", "a desk or interface, in mono"],
];
