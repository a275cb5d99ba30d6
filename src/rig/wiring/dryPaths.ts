import { dbToGain } from "../../sound/dsp/units.js";
import type { Comb } from "../../sound/measure/facts.js";
import { delayMsOf } from "./blend.js";
import { directOutOfPedal, gainsOf, intoPedal, through } from "./boxGains.js";
import { jackKey, type LoadingChanges, loadingChanges } from "./loading.js";
import { type Box, inputJacks, type Jack, outputJacks, type Wiring } from "./wiring.js";

/** One way that the unchanged signal takes to a bus: how late, and at what gain (negative: inverted). */
export interface DryWay {
  readonly delayMs: number;
  readonly gain: number;
}
type Ways = readonly DryWay[];

/**
 * Every way on which the signal itself, not an effect made of it, gets from the instrument to each side of the
 * destination; ways of one delay are one. What a pedal without a dry path gives (a drive, a tone control) counts as
 * the signal. Read off the wiring; no sound is needed.
 */
export function dryPaths(wiring: Wiring): readonly [left: readonly DryWay[], right: readonly DryWay[]] {
  const boxes = new Map(wiring.boxes.map((box) => [box.id, box]));
  const into = new Map(wiring.cables.map(({ from, to }) => [`${to.box}\n${to.jack}`, from]));
  const known = new Map<string, readonly Ways[]>();
  const changes = loadingChanges(wiring);
  const inputs = (box: Box) => inputJacks(box).map((jack) => at(into.get(`${box.id}\n${jack}`)));
  const at = (jack: Jack | undefined): Ways => {
    const box = jack && boxes.get(jack.box);
    if (!jack || !box) return [];
    const outputs = known.get(box.id) ?? loaded(box, outputsOf(box, inputs(box)), changes);
    known.set(box.id, outputs);
    return outputs[outputJacks(box).indexOf(jack.jack)] ?? [];
  };
  const destination = wiring.boxes.find(({ kind }) => kind === "destination");
  const [left = [], right = left] = destination ? inputs(destination) : [];
  return [left, right];
}

/**
 * Where a late copy of the signal meets itself on a bus: the strongest other way within 0.02 to 50 ms of the strongest.
 * Notches of y = x + g x(t - tau): at (2k + 1) / (2 tau); of an inverted copy at k / tau. Null when there is no such
 * copy, or only one more than 40 dB down.
 */
export function combOf(wiring: Wiring): Comb | null {
  const [left, right] = dryPaths(wiring).map(combOnBus);
  if (left && right && alike(left, right)) return { ...left, side: "both" };
  const worse = (right?.levelDb ?? -Infinity) > (left?.levelDb ?? -Infinity) ? right : left;
  return worse ? { ...worse, side: worse === left ? "left" : "right" } : null;
}

/** Delay of the strongest way on the left less that on the right, ms; null when a side has none. */
export function sideDelayMs(wiring: Wiring): number | null {
  const [left, right] = dryPaths(wiring).map((paths) => strongest(paths));
  return left && right ? left.delayMs - right.delayMs : null;
}

const nearestMs = 0.02;
const farthestMs = 50;
const faintestDb = -40;
const highestNotchHz = 16_000;
const mostNotches = 5;

function combOnBus(paths: readonly DryWay[]): Omit<Comb, "side"> | null {
  const main = strongest(paths);
  if (!main) return null;
  const other = strongest(
    paths.filter(({ delayMs }) => {
      const apart = Math.abs(delayMs - main.delayMs);
      return apart >= nearestMs && apart <= farthestMs;
    }),
  );
  if (!other) return null;
  const levelDb = 20 * Math.log10(Math.abs(other.gain / main.gain));
  if (levelDb < faintestDb) return null;
  const delayMs = Math.abs(other.delayMs - main.delayMs);
  const inverted = other.gain * main.gain < 0;
  return { delayMs, levelDb, inverted, notchesHz: notchesHz(delayMs, inverted) };
}

/** Centres of the first notches below 16 kHz, at most five. */
export function notchesHz(delayMs: number, inverted: boolean): readonly number[] {
  const spacingHz = 1000 / delayMs;
  return Array.from({ length: mostNotches }, (_, k) => (inverted ? k + 1 : k + 0.5) * spacingHz).filter(
    (hz) => hz <= highestNotchHz,
  );
}

const alike = (a: Omit<Comb, "side">, b: Omit<Comb, "side">): boolean =>
  Math.abs(a.delayMs - b.delayMs) < 1e-6 &&
  Math.abs(a.levelDb - b.levelDb) < 1e-6 &&
  a.inverted === b.inverted;

/** The way of the largest gain, whatever its sign; null where there is none. */
export function strongest(paths: readonly DryWay[]): DryWay | null {
  return paths.reduce<DryWay | null>(
    (best, path) => (!best || Math.abs(path.gain) > Math.abs(best.gain) ? path : best),
    null,
  );
}

function outputsOf(box: Box, inputs: readonly Ways[]): readonly Ways[] {
  switch (box.kind) {
    case "take":
      // Both sides of an instrument count as one signal: what they have in common is what can comb.
      return through(gainsOf(box), Array<Ways>(box.channels).fill([{ delayMs: 0, gain: 1 }]), joined);
    case "destination":
      return [];
    case "pedal":
      return through([intoPedal(box), directOutOfPedal(box)], inputs, joined).map((ways) =>
        ways.map(({ delayMs, gain }) => ({ delayMs: delayMs + delayMsOf(box), gain })),
      );
    default:
      return through(gainsOf(box), inputs, joined);
  }
}

/** What the dividers behind a box take. What an instrument's circuit does is alike on all ways. */
function loaded(box: Box, outputs: readonly Ways[], changes: LoadingChanges): readonly Ways[] {
  if (changes.size === 0) return outputs;
  const jacks = outputJacks(box);
  return outputs.map((ways, n) => joined([ways], [changes.get(jackKey(box.id, jacks[n]))?.gain ?? 1]));
}

/** Ways of several signals with a gain each; ways of one delay (to a nanosecond) add up, and cancelled ones go. */
function joined(signals: readonly Ways[], gains: readonly number[]): Ways {
  const sums = new Map<number, DryWay>();
  signals.forEach((paths, n) => {
    for (const { delayMs, gain } of paths) {
      const key = Math.round(delayMs * 1e6);
      sums.set(key, { delayMs, gain: (sums.get(key)?.gain ?? 0) + gain * gains[n] });
    }
  });
  return theStrongest([...sums.values()].filter(({ gain }) => Math.abs(gain) > 1e-9));
}

/** So many ways are followed from one jack on: splits and sums in a row would double them each time. */
const mostWays = 512;
/** Ways so far under the strongest are not followed where there are more: no comb is told below -40 dB. */
const faintestWayDb = -60;

/** All ways where they are few; of more, the strongest. What comes behind turns all up or down alike. */
function theStrongest(ways: Ways): Ways {
  if (ways.length <= mostWays) return ways;
  const faintest = Math.abs(strongest(ways)?.gain ?? 0) * dbToGain(faintestWayDb);
  const sizes = ways.map(({ gain }) => Math.abs(gain)).sort((a, b) => b - a);
  const least = Math.max(faintest, sizes[mostWays - 1]);
  const kept = ways.filter(({ gain }) => Math.abs(gain) > least);
  const equal = ways.filter(({ gain }) => Math.abs(gain) === least);
  return [...kept, ...equal.slice(0, mostWays - kept.length)];
}
