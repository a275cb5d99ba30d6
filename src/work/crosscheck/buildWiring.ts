import { modelOf } from "../../rig/pedals/models.js";
import type { PedalUse } from "../../rig/pedals/pedalModel.js";
import { delayMsOf } from "../../rig/wiring/blend.js";
import { gainsOf, intoPedal, isWet, outOfPedal, through } from "../../rig/wiring/boxGains.js";
import { jackKey, type LoadingChanges, loadingChanges } from "../../rig/wiring/loading.js";
import { loadingTaps } from "../../rig/wiring/loadingTaps.js";
import {
  type Box,
  inputJacks,
  type Jack,
  outputJacks,
  type PedalBox,
  type Wiring,
} from "../../rig/wiring/wiring.js";
import { amplified, convolved, played, sum } from "../../sound/standard/nodes.js";
import type { StandardContext, StandardNode } from "../../sound/standard/webAudio.js";
import { late } from "./latency.js";

/**
 * A wiring as a graph of standard nodes: every cable a connection of one channel, every box the gains, delays, filters,
 * convolvers and shapers that it stands for, and a ChannelMergerNode where it plays. Pure: it makes nodes and connects
 * them, nothing runs.
 *
 * @param context an AudioContext or OfflineAudioContext of any make
 * @param takes   the nodes that play the take, one channel each: one for all outputs of the instrument, or left and right
 * @param use     sound files that settings name, at the context's rate; by how much the engine's loops are late
 * @returns a node of two channels, left and right; a destination with one input plays on both
 * @throws Error for a model that `notOfStandardNodes` would have named and that is not handed over, or that has not passed `checkWiring`
 */
export function buildWiring(
  context: StandardContext,
  wiring: Wiring,
  takes: readonly StandardNode[],
  use: BuildUse,
): StandardNode {
  return new Builder(context, wiring, takes, use).stereo();
}

/** Samples at the output jacks of boxes, by box id and jack. */
export type HandedOver = ReadonlyMap<string, ReadonlyMap<string, Float32Array>>;

export interface BuildUse {
  readonly clips: PedalUse["clips"];
  /** See `loop.ts`; 0 by the standard. */
  readonly loopLateFrames: number;
  /** What boxes that no standard node makes give, by id and output jack: each is played in its place. */
  readonly handedOver?: HandedOver;
}

/** Walks a wiring from the destination back to the take. */
class Builder {
  readonly #context: StandardContext;
  readonly #wiring: Wiring;
  readonly #takes: readonly StandardNode[];
  readonly #use: BuildUse;
  readonly #done = new Map<string, readonly StandardNode[]>();
  readonly #loading: LoadingChanges;

  constructor(context: StandardContext, wiring: Wiring, takes: readonly StandardNode[], use: BuildUse) {
    this.#context = context;
    this.#wiring = wiring;
    this.#takes = takes;
    this.#use = use;
    this.#loading = loadingChanges(wiring);
  }

  stereo(): StandardNode {
    const destination = this.#wiring.boxes.find(({ kind }) => kind === "destination");
    if (!destination) throw new Error("a wiring without a destination cannot be built");
    const [left, right = left] = this.#inputs(destination);
    const merger = this.#context.createChannelMerger(2);
    left.connect(merger, 0, 0);
    right.connect(merger, 0, 1);
    return merger;
  }

  #inputs(box: Box): readonly StandardNode[] {
    return inputJacks(box).map((jack) => {
      const cable = this.#wiring.cables.find(({ to }) => to.box === box.id && to.jack === jack);
      return cable ? this.#at(cable.from) : sum(this.#context, []);
    });
  }

  /** The node at an output jack. */
  #at({ box: id, jack }: Jack): StandardNode {
    const box = this.#wiring.boxes.find((candidate) => candidate.id === id);
    if (!box) throw new Error(`no box "${id}" in this wiring`);
    const nodes = this.#done.get(id) ?? this.#outputs(box);
    this.#done.set(id, nodes);
    return nodes[outputJacks(box).indexOf(jack)];
  }

  #outputs(box: Box): readonly StandardNode[] {
    const inputs = this.#inputs(box);
    switch (box.kind) {
      case "take":
        return this.#loaded(box, through(gainsOf(box), this.#sides(box.channels), this.#mixed));
      case "destination":
        return [];
      case "pedal":
        return this.#handed(box) ?? this.#loaded(box, this.#pedal(box, inputs));
      default:
        return this.#loaded(box, through(gainsOf(box), inputs, this.#mixed));
    }
  }

  /** With what hangs on its outputs: a convolver for an instrument's circuit, a gain for a divider. */
  #loaded(box: Box, outputs: readonly StandardNode[]): readonly StandardNode[] {
    const jacks = outputJacks(box);
    return outputs.map((output, n) => {
      const change = this.#loading.get(jackKey(box.id, jacks[n]));
      if (!change) return output;
      const context = this.#context;
      const { circuit, gain } = change;
      return circuit
        ? convolved(context, output, loadingTaps(circuit, context.sampleRate))
        : amplified(context, output, gain);
    });
  }

  /** The instrument's own sides: those of the take, or its only channel on each. */
  #sides(channels: 1 | 2): readonly StandardNode[] {
    const [left, right = left] = this.#takes;
    return [left, right].slice(0, channels);
  }

  /** A box whose sound is given, with what hangs on it: a source an output, silent where nothing is known of it. Null for one to be built. */
  #handed(box: PedalBox): readonly StandardNode[] | null {
    const given = this.#use.handedOver?.get(box.id);
    if (!given) return null;
    return outputJacks(box).map((jack) => {
      const samples = given.get(jack);
      return samples ? played(this.#context, samples) : sum(this.#context, []);
    });
  }

  #pedal(box: PedalBox, inputs: readonly StandardNode[]): readonly StandardNode[] {
    const heard = through([intoPedal(box)], inputs, this.#mixed).map((input) =>
      late(this.#context, input, delayMsOf(box)),
    );
    const effect = isWet(box) ? this.#wet(box, heard) : [];
    return through([outOfPedal(box)], [...heard, ...effect], this.#mixed);
  }

  #wet({ pedal, outputs }: PedalBox, fed: readonly StandardNode[]): readonly StandardNode[] {
    const { standard } = modelOf(pedal.model);
    if (typeof standard === "string") throw new Error(`no standard nodes make a ${pedal.model}`);
    return standard.wet({ context: this.#context, settings: pedal.settings, fed, outputs, ...this.#use });
  }

  readonly #mixed = (inputs: readonly StandardNode[], gains: readonly number[]): StandardNode =>
    sum(
      this.#context,
      inputs.map((input, n) => amplified(this.#context, input, gains[n])),
    );
}
