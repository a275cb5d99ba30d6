/** How many are listed. */
const count = 5;

/**
 * The first notches of a signal that meets a copy of itself `latencyMs` later: (2k + 1) / (2 tau) for a copy of like
 * polarity, k / tau for an inverted one; those below half the sample rate. None for a copy that is not late.
 *
 * Source: closed form, |1 + g e^(-j w tau)| is least where w tau = pi (2k + 1); with -g where w tau = 2 pi k. An
 * inverted copy also takes the bass away (its first notch is at 0 Hz); the list starts at the next.
 */
export function leakNotchesHz(latencyMs: number, inverted: boolean, rateHz: number): number[] {
  if (!(latencyMs > 0)) return [];
  return Array.from({ length: count }, (_, k) => ((inverted ? k + 1 : k + 0.5) * 1000) / latencyMs).filter(
    (hz) => hz < rateHz / 2,
  );
}
