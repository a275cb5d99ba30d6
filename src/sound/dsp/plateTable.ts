/**
 * The published plate: lengths and taps in frames at 29 761 Hz, coefficients as they stand.
 * Source: J. Dattorro, "Effect Design, Part 1: Reverberator and Other Filters", J. Audio Eng. Soc. 45(9), Sept 1997,
 * Fig. 1, Table 1 (coefficients) and Table 2 (output taps).
 */
export const plateRateHz = 29_761;

/** Input diffusers, in series. */
export const plateDiffusers = [
  { delay: 142, coefficient: 0.75 },
  { delay: 107, coefficient: 0.75 },
  { delay: 379, coefficient: 0.625 },
  { delay: 277, coefficient: 0.625 },
] as const;

/** The two halves of the tank, left and right: all-pass that swings, delay, all-pass, delay; then the other half. */
export const plateHalves = [
  { swinging: 672, first: 4453, second: 1800, last: 3720 },
  { swinging: 908, first: 4217, second: 2656, last: 3163 },
] as const;

/** Decay diffusion 1, of the swinging all-pass, whose signs are reversed. */
export const decayDiffusion1 = 0.7;

/** Decay diffusion 2: 0.15 above the decay of half a half, within 0.25 and 0.5. */
export const decayDiffusion2 = (decay: number): number => Math.max(0.25, Math.min(0.5, decay + 0.15));

/** Every output tap counts by this much. */
export const plateTapGain = 0.6;

export interface PlateTap {
  readonly half: 0 | 1;
  readonly line: "first" | "second" | "last";
  readonly frames: number;
  readonly sign: 1 | -1;
}

const tap = (half: 0 | 1, line: PlateTap["line"], frames: number, sign: 1 | -1): PlateTap => ({
  half,
  line,
  frames,
  sign,
});

/** Left output, then right: each mostly from the other half. "second" reads inside the all-pass's own delay. */
export const plateTaps: readonly (readonly PlateTap[])[] = [
  [
    tap(1, "first", 266, 1),
    tap(1, "first", 2974, 1),
    tap(1, "second", 1913, -1),
    tap(1, "last", 1996, 1),
    tap(0, "first", 1990, -1),
    tap(0, "second", 187, -1),
    tap(0, "last", 1066, -1),
  ],
  [
    tap(0, "first", 353, 1),
    tap(0, "first", 3627, 1),
    tap(0, "second", 1228, -1),
    tap(0, "last", 2673, 1),
    tap(1, "first", 2111, -1),
    tap(1, "second", 335, -1),
    tap(1, "last", 121, -1),
  ],
];
