import { type Band, octaveBands, thirdOctaveBands } from "./isoBands.js";
import type { BandMeasures, Measures, ThirdMeasures } from "./measures.js";

export const needsReference = "needs a reference to compare with";

/** Why fields of bands are null: `bands.levelDb` and so on, with the bands' centres and what keeps each from a value. */
export function bandReasons(
  { bands, thirds }: Omit<Measures, "reasons">,
  rateHz: number,
): [string, string][] {
  const heard = bands.filter(({ levelDb }) => levelDb !== null);
  const reasons = {
    "bands.toDryDb": needsReference,
    "bands.toReferenceDb": needsReference,
    "thirds.toDryDb": needsReference,
    "thirds.toReferenceDb": needsReference,
    "bands.levelDb": levelReason(bands, octaveBands, rateHz),
    "thirds.levelDb": levelReason(thirds, thirdOctaveBands, rateHz),
    "bands.correlation": stereoReason(heard, "correlation", "one side is silent there"),
    "bands.sideShare": stereoReason(heard, "sideShare", ""),
    "bands.foldDownLossDb": stereoReason(heard, "foldDownLossDb", "left and right cancel entirely in mono"),
  };
  return Object.entries(reasons).filter(([, why]) => why !== "");
}

function levelReason(levels: readonly ThirdMeasures[], bands: readonly Band[], rateHz: number): string {
  const empty = bands.filter((_, k) => levels[k].levelDb === null);
  const isPast = ({ highHz }: Band) => highHz > rateHz / 2;
  return sentences([
    [empty.filter(isPast), `ends above half the rate, ${rateHz / 2} Hz`],
    [empty.filter((band) => !isPast(band)), "silent"],
  ]);
}

/** A band that is faint has none of the three; `why` it lacks this one when it has a side share. */
function stereoReason(
  heard: readonly BandMeasures[],
  field: "correlation" | "sideShare" | "foldDownLossDb",
  why: string,
): string {
  const empty = heard.filter((band) => band[field] === null);
  return sentences([
    [empty.filter(({ sideShare }) => sideShare !== null), why],
    [empty.filter(({ sideShare }) => sideShare === null), "over 100 dB below the loudest band"],
  ]);
}

function sentences(parts: readonly (readonly [readonly { readonly centreHz: number }[], string])[]): string {
  return parts
    .filter(([bands]) => bands.length > 0)
    .map(([bands, why]) => `${bands.map(({ centreHz }) => centreHz).join(", ")} Hz: ${why}`)
    .join("; ");
}
