import { dbToGain } from "../../sound/dsp/units.js";
import type { Comb } from "../../sound/measure/measures.js";
import { modelOf } from "../pedals/models.js";
import { blendOf } from "./blend.js";
import { panGains } from "./pan.js";
import { type Box, inputJacks, type Jack, outputJacks, type PedalBox, type Wiring } from "./wiring.js";

/** One way that the unchanged signal takes to a bus: how late, and at what gain (negative: inverted). */
export interface DryPath {
  readonly delayMs: number;
  readonly gain: number;
}

/**
 * Every way on which the signal itself, not an effect made of it, gets from the instrument to each side of the
 * destination; ways of one delay are one. What a pedal without a dry path gives (a drive, a tone control) counts as
 * the signal. Read off the wiring; no sound is needed.
 */
export function dryPaths(wiring: Wiring): readonly [left: readonly DryPath[], right: readonly DryPath[]] {
  const boxes = new Map(wiring.boxes.map((box) => [box.id, box]));
  const into = new Map(wiring.cables.map(({ from, to }) => [`${to.box}\n${to.jack}`, from]));
  const known = new Map<string, readonly (readonly DryPath[])[]>();
  const inputs = (box: Box) => inputJacks(box).map((jack) => at(into.get(`${box.id}\n${jack}`)));
  const at = (jack: Jack | undefined): readonly DryPath[] => {
    const box = jack && boxes.get(jack.box);
    if (!jack || !box) return [];
    const outputs = known.get(box.id) ?? through(box, inputs(box));
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

function combOnBus(paths: readonly DryPath[]): Omit<Comb, "side"> | null {
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
export function strongest(paths: readonly DryPath[]): DryPath | null {
  return paths.reduce<DryPath | null>(
    (best, path) => (!best || Math.abs(path.gain) > Math.abs(best.gain) ? path : best),
    null,
  );
}

function through(box: Box, inputs: readonly (readonly DryPath[])[]): readonly (readonly DryPath[])[] {
  switch (box.kind) {
    case "take":
      return [[{ delayMs: 0, gain: 1 }]];
    case "destination":
      return [];
    case "splitter":
      return outputJacks(box).map(() => inputs[0]);
    case "summing-box":
      return [
        joined(
          inputs,
          inputs.map(() => 1 / inputs.length),
        ),
      ];
    case "mixer": {
      const gains = box.inputs.map(({ gainDb, pan }) => panGains(pan).map((gain) => gain * dbToGain(gainDb)));
      const buses = [0, 1].map((side) =>
        joined(
          inputs,
          gains.map((pair) => pair[side]),
        ),
      );
      return box.outputs === 2 ? buses : [joined(buses, [0.5, 0.5])];
    }
    case "pedal":
      return throughPedal(box, inputs);
  }
}

function throughPedal(
  box: PedalBox,
  inputs: readonly (readonly DryPath[])[],
): readonly (readonly DryPath[])[] {
  const { pedal, outputs } = box;
  const fed =
    inputs.length > outputs
      ? [
          joined(
            inputs,
            inputs.map(() => 1 / inputs.length),
          ),
        ]
      : inputs;
  const gains = box.on ? coherentGains(box) : Array(outputs).fill(pedal.whenOff === "muted" ? 0 : 1);
  const late = box.on || pedal.whenOff === "buffered" ? pedal.latencyMs : 0;
  return outputJacks(box).map((_, channel) =>
    joined([fed[channel] ?? fed[0]], [gains[channel]]).map(({ delayMs, gain }) => ({
      delayMs: delayMs + late,
      gain,
    })),
  );
}

/** Gain of the signal itself through a pedal that is on: its dry path, and what a model without one makes of it. */
function coherentGains(box: PedalBox): number[] {
  const { model, settings, levelDb, invertsPolarity } = box.pedal;
  const { dry, wet } = blendOf(box);
  const direct = modelOf(model).directGain(settings);
  const trim = dbToGain(levelDb) * (invertsPolarity ? -1 : 1);
  return dry.map((gain, channel) => trim * (gain + direct * wet[channel]));
}

/** Ways of several signals with a gain each; ways of one delay (to a nanosecond) add up, and cancelled ones go. */
function joined(signals: readonly (readonly DryPath[])[], gains: readonly number[]): readonly DryPath[] {
  const sums = new Map<number, DryPath>();
  signals.forEach((paths, n) => {
    for (const { delayMs, gain } of paths) {
      const key = Math.round(delayMs * 1e6);
      sums.set(key, { delayMs, gain: (sums.get(key)?.gain ?? 0) + gain * gains[n] });
    }
  });
  return [...sums.values()].filter(({ gain }) => Math.abs(gain) > 1e-9);
}
