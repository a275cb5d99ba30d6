import type { PedalUse } from "../../rig/pedals/pedalModel.js";
import { blendOf } from "../../rig/wiring/blend.js";
import { panGains } from "../../rig/wiring/pan.js";
import {
  type Box,
  inputJacks,
  type Jack,
  outputJacks,
  type PedalBox,
  type Wiring,
} from "../../rig/wiring/wiring.js";
import { dbToGain } from "../../sound/dsp/units.js";
import { late } from "./latency.js";
import { amplified, sum } from "./nodes.js";
import { standardModels } from "./standardModels.js";
import type { StandardContext, StandardNode } from "./webAudio.js";

/**
 * A wiring as a graph of standard nodes: every cable a connection of one channel, every box the gains, delays, filters,
 * convolvers and shapers that it stands for, and a ChannelMergerNode where it plays. Pure: it makes nodes and connects
 * them, nothing runs.
 *
 * @param context an AudioContext or OfflineAudioContext of any make
 * @param take    the node that plays the take, one channel
 * @param use     sound files that settings name, at the context's rate; by how much the engine's loops are late
 * @returns a node of two channels, left and right; a destination with one input plays on both
 * @throws Error for a wiring with a model that `whyNotStandard` would have named, or that has not passed `checkWiring`
 */
export function buildWiring(
  context: StandardContext,
  wiring: Wiring,
  take: StandardNode,
  use: BuildUse,
): StandardNode {
  return new Builder(context, wiring, take, use).stereo();
}

export interface BuildUse {
  readonly clips: PedalUse["clips"];
  /** See `loop.ts`; 0 by the standard. */
  readonly loopLateFrames: number;
}

/** Walks a wiring from the destination back to the take. */
class Builder {
  readonly #context: StandardContext;
  readonly #wiring: Wiring;
  readonly #take: StandardNode;
  readonly #use: BuildUse;
  readonly #done = new Map<string, readonly StandardNode[]>();

  constructor(context: StandardContext, wiring: Wiring, take: StandardNode, use: BuildUse) {
    this.#context = context;
    this.#wiring = wiring;
    this.#take = take;
    this.#use = use;
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
    const context = this.#context;
    const inputs = this.#inputs(box);
    switch (box.kind) {
      case "take":
        return [this.#take];
      case "destination":
        return [];
      case "splitter":
        return Array.from({ length: box.outputs }, () => inputs[0]);
      case "summing-box":
        return [this.#mean(inputs)];
      case "mixer": {
        const buses = ([0, 1] as const).map((side) =>
          sum(
            context,
            inputs.map((input, n) => {
              const { gainDb, pan } = box.inputs[n];
              return amplified(context, input, dbToGain(gainDb) * panGains(pan)[side]);
            }),
          ),
        );
        return box.outputs === 2 ? buses : [this.#mean(buses)];
      }
      case "pedal":
        return box.on ? this.#pedal(box, inputs) : this.#bypassed(box, inputs);
    }
  }

  #pedal(box: PedalBox, inputs: readonly StandardNode[]): readonly StandardNode[] {
    const context = this.#context;
    const { pedal, outputs } = box;
    const fed = this.#fit(inputs, outputs).map((input) => late(context, input, pedal.latencyMs));
    const { dry, wet } = blendOf(box);
    const effect = wet.some((gain) => gain !== 0) ? this.#wet(box, fed) : [];
    const trim = dbToGain(pedal.levelDb) * (pedal.invertsPolarity ? -1 : 1);
    return Array.from({ length: outputs }, (_, side) =>
      sum(context, [
        amplified(context, fed[side] ?? fed[0], trim * dry[side]),
        ...(effect.length > 0 ? [amplified(context, effect[side], trim * wet[side])] : []),
      ]),
    );
  }

  #wet({ pedal, outputs }: PedalBox, fed: readonly StandardNode[]): readonly StandardNode[] {
    const model = standardModels[pedal.model];
    if (!model) throw new Error(`no standard nodes make a ${pedal.model}`);
    return model.wet({ context: this.#context, settings: pedal.settings, fed, outputs, ...this.#use });
  }

  /** Off: nothing passes a muting pedal; others pass their input, late where they are buffered. */
  #bypassed(box: PedalBox, inputs: readonly StandardNode[]): readonly StandardNode[] {
    const { whenOff, latencyMs } = box.pedal;
    if (whenOff === "muted") return Array.from({ length: box.outputs }, () => sum(this.#context, []));
    const passed = this.#fit(inputs, box.outputs);
    const heard =
      whenOff === "buffered" ? passed.map((node) => late(this.#context, node, latencyMs)) : passed;
    return Array.from({ length: box.outputs }, (_, side) => heard[side] ?? heard[0]);
  }

  /** Two sides into a pedal that has one output become their mean. */
  #fit(inputs: readonly StandardNode[], outputs: 1 | 2): readonly StandardNode[] {
    return inputs.length > outputs ? [this.#mean(inputs)] : inputs;
  }

  #mean(inputs: readonly StandardNode[]): StandardNode {
    const parts = inputs.map((input) => amplified(this.#context, input, 1 / inputs.length));
    return sum(this.#context, parts);
  }
}
