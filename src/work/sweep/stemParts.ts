import { type Mix, scaled, summed } from "../render/mix.js";

/** Gains agree when they differ by no more than this share of the larger. */
const agreesWithin = 1e-9;

/**
 * Parts of a sum that its settings turn up and down as one, read off the sum at a few settings in general position:
 * signals whose gains keep one ratio to each other are one part, a mix in which the first of them has gain 1.
 */
export function partsOf(probes: readonly Mix[]): Mix[] {
  const signals = [...new Set(probes.flat().map(({ signal }) => signal))].sort((a, b) => a - b);
  const parts: { first: readonly number[]; members: Mix[] }[] = [];
  for (const signal of signals) {
    const gains = probes.map((mix) => gainOf(mix, signal));
    const part = parts.find(({ first }) => inProportion(first, gains));
    const alone = [{ signal, gain: 1 }];
    if (part) part.members.push(scaled(alone, ratio(gains, part.first)));
    else parts.push({ first: gains, members: [alone] });
  }
  return parts.map(({ members }) => summed(members));
}

/**
 * How much of each part is in a sum.
 * @throws Error when the sum holds a signal that is in no part, or the signals of a part in another proportion
 */
export function partGains(parts: readonly Mix[], sum: Mix): number[] {
  const gains = parts.map(([first]) => gainOf(sum, first.signal) / first.gain);
  const expected = summed(parts.map((part, n) => scaled(part, gains[n])));
  for (const { signal } of [...expected, ...sum]) {
    const [wanted, found] = [gainOf(expected, signal), gainOf(sum, signal)];
    if (Math.abs(wanted - found) > agreesWithin * Math.max(Math.abs(wanted), Math.abs(found)))
      throw new Error("a setting changes more than the gains of its stems");
  }
  return gains;
}

const gainOf = (mix: Mix, signal: number): number => mix.find((term) => term.signal === signal)?.gain ?? 0;

function inProportion(a: readonly number[], b: readonly number[]): boolean {
  const share = ratio(b, a);
  const size = Math.max(...b.map(Math.abs));
  return share !== 0 && b.every((gain, n) => Math.abs(gain - share * a[n]) <= agreesWithin * size);
}

/** b over a, where a is largest; to 12 digits, so that the same part on both sides is the same mix. */
function ratio(b: readonly number[], a: readonly number[]): number {
  const at = a.reduce((best, gain, n) => (Math.abs(gain) > Math.abs(a[best]) ? n : best), 0);
  return Number((b[at] / a[at]).toPrecision(12));
}
