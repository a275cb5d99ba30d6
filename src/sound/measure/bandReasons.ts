import type { LevelledBand, OctaveBand } from "./band.js";
import { type Band, octaveBands, thirdOctaveBands } from "./isoBands.js";
import type { Reasons } from "./measure.js";

/** Why fields of octaves are null, with the bands' centres and what keeps each from a value. */
export function octaveReasons(bands: readonly OctaveBand[], rateHz: number): Reasons {
  const heard = bands.filter(({ levelDb }) => levelDb !== null);
  return told({
    levelDb: levelReason(bands, octaveBands, rateHz),
    correlation: stereoReason(heard, "correlation", "one side is silent there"),
    sideShare: stereoReason(heard, "sideShare", ""),
    foldDownLossDb: stereoReason(heard, "foldDownLossDb", "left and right cancel entirely in mono"),
  });
}

export const thirdReasons = (thirds: readonly LevelledBand[], rateHz: number): Reasons =>
  told({ levelDb: levelReason(thirds, thirdOctaveBands, rateHz) });

const told = (reasons: Reasons): Reasons =>
  Object.fromEntries(Object.entries(reasons).filter(([, why]) => why !== ""));

function levelReason(levels: readonly LevelledBand[], bands: readonly Band[], rateHz: number): string {
  const empty = bands.filter((_, k) => levels[k].levelDb === null);
  const isPast = ({ highHz }: Band) => highHz > rateHz / 2;
  return sentences([
    [empty.filter(isPast), `ends above half the rate, ${rateHz / 2} Hz`],
    [empty.filter((band) => !isPast(band)), "silent"],
  ]);
}

/** A band that is faint has none of the three; `why` it lacks this one when it has a side share. */
function stereoReason(
  heard: readonly OctaveBand[],
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
