import { modelOf } from "../../rig/pedals/models.js";
import { delayMsOf } from "../../rig/wiring/blend.js";
import { gainsOf, intoPedal, isWet, outOfPedal, through } from "../../rig/wiring/boxGains.js";
import { jackKey, type LoadingChange, loadingChanges } from "../../rig/wiring/loading.js";
import {
  type Box,
  inputJacks,
  type Jack,
  outputJacks,
  type PedalBox,
  type Wiring,
} from "../../rig/wiring/wiring.js";
import { emptySpectrum, type Spectrum } from "../capture/sweepSpectrum.js";
import type { ProofGrid } from "./proofGrid.js";
import { swings, type UnitSpectra } from "./unitSpectra.js";

/** A wiring as somebody built it: what no drawing has stands beside it. */
export interface Board {
  readonly wiring: Wiring;
  /** Output jacks, by `jackKey`, whose cable turns the polarity over. */
  readonly inverted: ReadonlySet<string>;
  /** Boxes that stay off, whatever their footswitch says. */
  readonly stuckOff: ReadonlySet<string>;
}

/** Which of an instrument's outputs the tone comes in by. */
export type Feed = "both" | "left" | "right";

/** What stands still for the moment of a response. */
export interface Moment {
  readonly feed: Feed;
  /** Where each LFO is held, degrees, by the number of the swinging box along the wiring. */
  readonly phaseDegrees: (swinging: number) => number;
  /** What a drive or a compressor is taken for: a plain gain. */
  readonly driveGain: number;
}

type Signal = Spectrum | null;

/**
 * Damped spectra at the destination's inputs of a board whose every box stands still; null where nothing arrives. Left
 * and right, or one for a destination with one input.
 */
export function boardResponse(
  { wiring, inverted, stuckOff }: Board,
  { feed, phaseDegrees, driveGain }: Moment,
  units: UnitSpectra,
  grid: ProofGrid,
): readonly Signal[] {
  const played = wiring.boxes.map((box) =>
    box.kind === "pedal" && stuckOff.has(box.id) ? { ...box, on: false } : box,
  );
  const boxes = new Map(played.map((box) => [box.id, box]));
  const changes = loadingChanges({ boxes: played, cables: wiring.cables });
  const into = new Map(wiring.cables.map(({ from, to }) => [jackKey(to.box, to.jack), from]));
  const swinging = played.filter((box) => box.kind === "pedal" && swings(box.pedal));
  const done = new Map<string, readonly Signal[]>();
  const mixed = (signals: readonly Signal[], gains: readonly number[]): Signal => sum(signals, gains, grid);

  const at = (jack: Jack | undefined): Signal => {
    const box = jack && boxes.get(jack.box);
    if (!jack || !box) return null;
    const outputs = done.get(box.id) ?? outputsOf(box);
    done.set(box.id, outputs);
    const given = outputs[outputJacks(box).indexOf(jack.jack)] ?? null;
    const signal = loaded(given, changes.get(jackKey(jack.box, jack.jack)), units, grid);
    return inverted.has(jackKey(jack.box, jack.jack)) ? mixed([signal], [-1]) : signal;
  };
  const inputsOf = (box: Box) => inputJacks(box).map((jack) => at(into.get(jackKey(box.id, jack))));

  function outputsOf(box: Box): readonly Signal[] {
    if (box.kind === "destination") return [];
    if (box.kind === "pedal") return pedal(box);
    if (box.kind === "take") return through(gainsOf(box), sources(box.channels, feed, units.tone), mixed);
    return through(gainsOf(box), inputsOf(box), mixed);
  }

  function pedal(box: PedalBox): readonly Signal[] {
    const heard = through([intoPedal(box)], inputsOf(box), mixed).map((signal) =>
      late(signal, delayMsOf(box), grid),
    );
    return through([outOfPedal(box)], [...heard, ...(isWet(box) ? effect(box, heard) : [])], mixed);
  }

  function effect(box: PedalBox, heard: readonly Signal[]): readonly Signal[] {
    if (modelOf(box.pedal.model).nonlinear)
      return Array.from({ length: box.outputs }, (_, n) =>
        mixed([heard[Math.min(n, heard.length - 1)]], [driveGain]),
      );
    const phase = phaseDegrees(swinging.indexOf(box));
    return units.of(box, phase).map((row) => products(row, heard, grid));
  }

  const destination = wiring.boxes.find(({ kind }) => kind === "destination");
  return destination ? inputsOf(destination) : [];
}

function sources(channels: 1 | 2, feed: Feed, tone: Spectrum): readonly Signal[] {
  return channels === 1 ? [tone] : [feed === "right" ? null : tone, feed === "left" ? null : tone];
}

const empty = ({ bins }: ProofGrid): Spectrum => emptySpectrum(2 * bins);

function sum(signals: readonly Signal[], gains: readonly number[], grid: ProofGrid): Signal {
  let total: Spectrum | null = null;
  for (const [n, signal] of signals.entries()) {
    if (signal === null || gains[n] === 0) continue;
    total ??= empty(grid);
    for (let k = 0; k <= grid.bins; k++) {
      total.re[k] += gains[n] * signal.re[k];
      total.im[k] += gains[n] * signal.im[k];
    }
  }
  return total;
}

/** The sum of signals, each through a response. */
function products(responses: readonly Spectrum[], signals: readonly Signal[], grid: ProofGrid): Signal {
  let total: Spectrum | null = null;
  for (const [n, signal] of signals.entries()) {
    if (signal === null) continue;
    total ??= empty(grid);
    const { re, im } = responses[n];
    for (let k = 0; k <= grid.bins; k++) {
      total.re[k] += re[k] * signal.re[k] - im[k] * signal.im[k];
      total.im[k] += re[k] * signal.im[k] + im[k] * signal.re[k];
    }
  }
  return total;
}

/** What a signal loses into what hangs on its jack: of a circuit the level alone, which is all that cells hold. */
function loaded(
  signal: Signal,
  change: LoadingChange | undefined,
  units: UnitSpectra,
  grid: ProofGrid,
): Signal {
  if (signal === null || change === undefined) return signal;
  if (change.circuit === null) return sum([signal], [change.gain], grid);
  const out = empty(grid);
  const gains = units.circuitGains(change.circuit);
  for (let k = 1; k <= grid.bins; k++) {
    out.re[k] = change.gain * gains[k] * signal.re[k];
    out.im[k] = change.gain * gains[k] * signal.im[k];
  }
  return out;
}

/** A signal later, damped by as much. */
function late(signal: Signal, ms: number, grid: ProofGrid): Signal {
  if (signal === null || ms === 0) return signal;
  const out = empty(grid);
  const gain = Math.exp((-grid.dampingPerSecond * ms) / 1000);
  const step = (-2 * Math.PI * grid.binHz * ms) / 1000;
  for (let k = 0; k <= grid.bins; k++) {
    const [c, s] = [gain * Math.cos(k * step), gain * Math.sin(k * step)];
    out.re[k] = signal.re[k] * c - signal.im[k] * s;
    out.im[k] = signal.re[k] * s + signal.im[k] * c;
  }
  return out;
}
