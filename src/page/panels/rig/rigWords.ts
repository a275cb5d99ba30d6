import type { Jacks, PlaysInto } from "../../../rig/model/rig.js";

/** Jacks by what is printed on a box. */
export const jackWords: readonly (readonly [Jacks, string])[] = [
  ["mono", "one in, one out"],
  ["mono-to-stereo", "one in, left and right out"],
  ["stereo", "left and right, in and out"],
];

export const playsIntoWords: readonly (readonly [PlaysInto, string])[] = [
  ["stereo-desk", "a desk or interface, in stereo"],
  ["two-amps", "two amps"],
  ["one-amp", "one amp"],
  ["mono-desk", "a desk or interface, in mono"],
];
