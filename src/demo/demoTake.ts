import type { Clip } from "../sound/audio/clip.js";
import { ferryRoadTake } from "./ferryRoad.js";
import { quayPianoTake } from "./quayPiano.js";

/** Takes made by the project itself, so that anybody may use them for anything. */
export const demoTakes = ["ferry-road", "quay-piano"] as const;
export type DemoTake = (typeof demoTakes)[number];

/** Of the takes that are shipped. */
const rateHz = 48_000;

/** A dry take: mono, 48 kHz, peak -3 dBFS, always the same to the bit. `fixtures/takes` holds both as 24-bit WAV. */
export function makeDemoTake(name: DemoTake): Clip {
  return name === "ferry-road" ? ferryRoadTake(rateHz) : quayPianoTake(rateHz);
}
