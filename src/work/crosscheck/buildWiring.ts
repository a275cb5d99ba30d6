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
import type { Taps } from "./ownResponse.js";

/**
 * A wiring as a graph of standard nodes: every cable a connection of one channel, every box the gains, delays, filters,
 * convolvers and shapers that it stands for, and a ChannelMergerNode where it plays. Pure: it makes nodes and connects
 * them, nothing runs.
 *
 * @param context an AudioContext or OfflineAudioContext of any make
 * @param takes   the nodes that play the take, one channel each: one for all outputs of the instrument, or left and right
 * @returns a node of `channelsOf(wiring, use)` channels: left and right (a destination with one input plays on both), then
 *   what each effect that is handed over would hear
 * @throws Error for an effect that is neither of standard nodes nor given, or a wiring that has not passed `checkWiring`
 */
export function buildWiring(
  context: StandardContext,
  wiring: Wiring,
  takes: readonly StandardNode[],
  use: BuildUse,
): StandardNode {
  return new Builder(context, wiring, takes, use).whole();
}

/** How many channels `buildWiring` gives. */
export const builtChannels = ({ boxes }: Wiring, { effects }: Pick<BuildUse, "effects">): number =>
  boxes.reduce((sum, box) => (isHandedOver(box, effects) ? sum + intoPedal(box).length : sum), 2);

/** An effect that is not made of standard nodes. */
export type GivenEffect =
  | { readonly by: "response"; readonly taps: Taps }
  /** Its sound, one an output; silence behind its end. */
  | { readonly by: "hand-over"; readonly sound: readonly Float32Array[] };

/** By the id of the pedal's box. */
export type GivenEffects = ReadonlyMap<string, GivenEffect>;

export interface BuildUse {
  readonly clips: PedalUse["clips"];
  /** See `loop.ts`; 0 by the standard. */
  readonly loopLateFrames: number;
  /** How long it plays. */
  readonly frames: number;
  readonly effects: GivenEffects;
}

const isHandedOver = (box: Box, effects: GivenEffects): box is PedalBox =>
  box.kind === "pedal" && effects.get(box.id)?.by === "hand-over";

/** Walks a wiring from the destination back to the take. */
class Builder {
  readonly #context: StandardContext;
  readonly #wiring: Wiring;
  readonly #takes: readonly StandardNode[];
  readonly #use: BuildUse;
  readonly #done = new Map<string, readonly StandardNode[]>();
  /** What effects that are handed over would hear, by box id. */
  readonly #heard = new Map<string, readonly StandardNode[]>();
  readonly #loading: LoadingChanges;

  constructor(context: StandardContext, wiring: Wiring, takes: readonly StandardNode[], use: BuildUse) {
    this.#context = context;
    this.#wiring = wiring;
    this.#takes = takes;
    this.#use = use;
    this.#loading = loadingChanges(wiring);
  }

  whole(): StandardNode {
    const destination = this.#wiring.boxes.find(({ kind }) => kind === "destination");
    if (!destination) throw new Error("a wiring without a destination cannot be built");
    const [left, right = left] = this.#inputs(destination);
    const handed = this.#wiring.boxes.filter((box) => isHandedOver(box, this.#use.effects));
    const heard = handed.flatMap((box) => {
      this.#outputsOf(box);
      return this.#heard.get(box.id) ?? [];
    });
    const channels = [left, right, ...heard];
    const merger = this.#context.createChannelMerger(channels.length);
    channels.forEach((channel, n) => {
      channel.connect(merger, 0, n);
    });
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
    return this.#outputsOf(box)[outputJacks(box).indexOf(jack)];
  }

  #outputsOf(box: Box): readonly StandardNode[] {
    const nodes = this.#done.get(box.id) ?? this.#outputs(box);
    this.#done.set(box.id, nodes);
    return nodes;
  }

  #outputs(box: Box): readonly StandardNode[] {
    const inputs = this.#inputs(box);
    switch (box.kind) {
      case "take":
        return this.#loaded(box, through(gainsOf(box), this.#sides(box.channels), this.#mixed));
      case "destination":
        return [];
      case "pedal":
        return this.#loaded(box, this.#pedal(box, inputs));
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

  #pedal(box: PedalBox, inputs: readonly StandardNode[]): readonly StandardNode[] {
    const heard = through([intoPedal(box)], inputs, this.#mixed).map((input) =>
      late(this.#context, input, delayMsOf(box)),
    );
    const effect = isWet(box) ? this.#wet(box, heard) : [];
    return through([outOfPedal(box)], [...heard, ...effect], this.#mixed);
  }

  #wet({ id, pedal, outputs }: PedalBox, fed: readonly StandardNode[]): readonly StandardNode[] {
    const context = this.#context;
    const given = this.#use.effects.get(id);
    if (given?.by === "response") return given.taps.map((row) => responded(context, fed, row));
    if (given) {
      this.#heard.set(id, fed);
      return given.sound.map((samples) => played(context, samples));
    }
    const { standard } = modelOf(pedal.model);
    if (typeof standard === "string") throw new Error(`no standard nodes make a ${pedal.model}`);
    return standard.wet({ context, settings: pedal.settings, fed, outputs, ...this.#use });
  }

  readonly #mixed = (inputs: readonly StandardNode[], gains: readonly number[]): StandardNode =>
    sum(
      this.#context,
      inputs.map((input, n) => amplified(this.#context, input, gains[n])),
    );
}

/** The sum of all inputs, each through its own taps; empty taps join nothing. */
const responded = (
  context: StandardContext,
  fed: readonly StandardNode[],
  taps: readonly Float32Array[],
): StandardNode =>
  sum(
    context,
    taps.flatMap((each, n) => (each.length > 0 ? [convolved(context, fed[n], each)] : [])),
  );
