/** A frequency band with the name that people use and the edges that the standard computes. */
export interface Band {
  /** Nominal centre, as printed on equipment. */
  readonly centreHz: number;
  readonly exactCentreHz: number;
  readonly lowHz: number;
  readonly highHz: number;
}

/**
 * Octaves from 31.5 Hz to 16 kHz: exact centres 1000 * 10^(3x/10) Hz, edges a factor 10^(3/20) either side.
 * Source: ISO 266:1997 (nominal centres); IEC 61260-1:2014, 5.2 to 5.6 (base ten, G = 10^(3/10)).
 */
export const octaveBands: readonly Band[] = [31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000, 16_000].map(
  (centreHz, i) => bandAt(centreHz, 3 * (i - 5), 3),
);

/** Third octaves from 25 Hz to 20 kHz, three to each octave: exact centres 1000 * 10^(x/10) Hz, edges 10^(1/20). */
export const thirdOctaveBands: readonly Band[] = [
  25, 31.5, 40, 50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250, 1600, 2000, 2500,
  3150, 4000, 5000, 6300, 8000, 10_000, 12_500, 16_000, 20_000,
].map((centreHz, i) => bandAt(centreHz, i - 16, 1));

/** `tenths`: of a decade above 1 kHz; `widthTenths`: of a decade from edge to edge. */
function bandAt(centreHz: number, tenths: number, widthTenths: number): Band {
  return {
    centreHz,
    exactCentreHz: 1000 * 10 ** (tenths / 10),
    lowHz: 1000 * 10 ** ((2 * tenths - widthTenths) / 20),
    highHz: 1000 * 10 ** ((2 * tenths + widthTenths) / 20),
  };
}
