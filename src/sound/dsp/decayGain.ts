/**
 * The factor by which sound falls in `frames` frames when it falls by 60 dB in `decaySeconds`: 10^(-3 m / (fs T60)).
 * Put on every delay of a lossless loop, it moves all poles alike, so that every frequency decays in that time.
 * Source: J.-M. Jot and A. Chaigne, "Digital delay networks for designing artificial reverberators", AES 90th
 * Convention, 1991; T60 = 3 tau / (-lg g) of one comb is Schroeder 1962.
 */
export function decayGain(frames: number, decaySeconds: number, rateHz: number): number {
  return 10 ** ((-3 * frames) / (rateHz * decaySeconds));
}
