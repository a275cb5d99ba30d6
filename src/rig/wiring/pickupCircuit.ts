import type { Pickup } from "../model/rig.js";

/** What hangs on an instrument's jack. */
export interface JackLoad {
  /** All inputs in parallel; null for none. */
  readonly ohms: number | null;
  /** Of the cables. */
  readonly picofarads: number;
}

/** A level over frequency, dB. */
export type LevelOver = (hz: number) => number;

export interface Peak {
  readonly hz: number;
  readonly db: number;
}

/**
 * A magnetic pickup as a circuit: the level at the jack against what the strings induce in the coil, dB over frequency.
 *
 *     strings --R--L--+--------+------(1 - a) Rv--+----+------+
 *                     |        |                  |    |      |
 *                     C own    b Rt + Ct          a Rv cables inputs
 *
 * R, L and C are the coil's own; a and b are the shares of the volume and tone controls' tracks. Ladder of impedances,
 * solved from the jack back: a series Z ahead of an admittance Y passes 1 / (1 + Z Y) and is Y / (1 + Z Y) to what stands
 * ahead. Not in it: eddy currents in covers and magnets, which lower the peak.
 *
 * Source: Kirchhoff's laws; the equivalent circuit is common practice. Tone ahead of volume likewise.
 */
export function jackLevel({ ohms, henries, picofarads, volume, tone }: Pickup, load: JackLoad): LevelOver {
  const trackOhms = volume?.ohms ?? Number.POSITIVE_INFINITY;
  const share = volume?.trackShare ?? 1;
  const siemens = (load.ohms === null ? 0 : 1 / load.ohms) + 1 / (share * trackOhms);
  const upperOhms = share === 1 ? 0 : (1 - share) * trackOhms;
  const toneFarads = (tone?.nanofarads ?? 0) * 1e-9;
  const toneOhms = tone ? tone.trackShare * tone.ohms : 0;
  return (hz) => {
    const w = 2 * Math.PI * hz;
    const jack = behind([upperOhms, 0], [siemens, w * load.picofarads * 1e-12]);
    const toneBranch = behind([toneOhms, 0], [0, w * toneFarads]);
    const own: Complex = [0, w * picofarads * 1e-12];
    const coil = behind([ohms, w * henries], sum(jack.admittance, toneBranch.admittance, own));
    return -10 * Math.log10(power(jack.divisor) * power(coil.divisor));
  };
}

/** The highest of a level between two frequencies: a grid of 48 an octave, then golden sections between its neighbours. */
export function peakBetween(level: LevelOver, fromHz: number, toHz: number): Peak {
  const grid = gridOf(fromHz, toHz);
  const best = grid.reduce((found, hz, n) => (level(hz) > level(grid[found]) ? n : found), 0);
  let low = grid[Math.max(0, best - 1)];
  let high = grid[Math.min(grid.length - 1, best + 1)];
  for (let step = 0; step < 50; step++) {
    const share = (high - low) * goldenShare;
    if (level(high - share) > level(low + share)) low += share;
    else high -= share;
  }
  const refined = (low + high) / 2;
  const hz = level(refined) > level(grid[best]) ? refined : grid[best];
  return { hz, db: level(hz) };
}

/**
 * What treble comes to against low frequencies: the peak above them, null where there is none, and where the level falls
 * 3 dB (half the power) below them for good; null where it never does.
 */
export function trebleOf(level: LevelOver): {
  readonly resonance: Peak | null;
  readonly cornerHz: number | null;
} {
  const lowDb = level(0);
  const isPassed = (hz: number) => level(hz) > lowDb - halfPowerDb;
  let topHz = 1e7;
  while (isPassed(topHz) && topHz < mostHz) topHz *= 2;
  const peak = peakBetween(level, leastHz, topHz);
  const resonance = peak.db - lowDb > 1e-6 ? { hz: peak.hz, db: peak.db - lowDb } : null;
  if (isPassed(topHz)) return { resonance, cornerHz: null };
  const grid = gridOf(leastHz, topHz);
  const last = grid.findLastIndex(isPassed);
  if (last < 0) return { resonance, cornerHz: null };
  let low = grid[last];
  let high = grid[last + 1];
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (isPassed(middle)) low = middle;
    else high = middle;
  }
  return { resonance, cornerHz: low };
}

const halfPowerDb = 10 * Math.log10(2);
/** Share of a span that a golden section takes off. */
const goldenShare = (3 - Math.sqrt(5)) / 2;
/** No instrument plays below the one, and no cable passes the other. */
const leastHz = 1;
const mostHz = 1e12;

function gridOf(fromHz: number, toHz: number): readonly number[] {
  const steps = Math.ceil(48 * Math.log2(toHz / fromHz));
  return Array.from({ length: steps + 1 }, (_, n) => fromHz * (toHz / fromHz) ** (n / steps));
}

type Complex = readonly [re: number, im: number];

const power = ([re, im]: Complex): number => re * re + im * im;

const sum = (...terms: readonly Complex[]): Complex =>
  terms.reduce(([re, im], term) => [re + term[0], im + term[1]], [0, 0]);

/** A series impedance Z ahead of an admittance Y: 1 + Z Y, which divides the voltage, and Y / (1 + Z Y). */
function behind([zRe, zIm]: Complex, [yRe, yIm]: Complex): { divisor: Complex; admittance: Complex } {
  const divisor: Complex = [1 + zRe * yRe - zIm * yIm, zRe * yIm + zIm * yRe];
  const [re, im] = divisor;
  const norm = power(divisor);
  return { divisor, admittance: [(yRe * re + yIm * im) / norm, (yIm * re - yRe * im) / norm] };
}
