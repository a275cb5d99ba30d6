import type { Pedal } from "../../rig/model/rig.js";
import { modelOf } from "../../rig/pedals/models.js";
import type { PedalModel, PedalUse } from "../../rig/pedals/pedalModel.js";
import { delayMsOf } from "../../rig/wiring/blend.js";
import { gainsOf, intoPedal, isWet, outOfPedal, through } from "../../rig/wiring/boxGains.js";
import { switchId, withMutesSet } from "../../rig/wiring/footswitches.js";
import {
  jackKey,
  type LoadedCircuit,
  type LoadingChanges,
  loadingChanges,
} from "../../rig/wiring/loading.js";
import { loadingTaps } from "../../rig/wiring/loadingTaps.js";
import type { BoxPart } from "../../rig/wiring/soldBoxes.js";
import {
  type Box,
  inputJacks,
  type Jack,
  outputJacks,
  type PedalBox,
  type Wiring,
} from "../../rig/wiring/wiring.js";
import { Convolution } from "../../sound/dsp/convolution.js";
import { Crossfade } from "../../sound/dsp/crossfade.js";
import { FractionalDelay } from "../../sound/dsp/fractionalDelay.js";
import { msToFrames } from "../../sound/dsp/units.js";
import { type Graph, GraphBuilder } from "./graph.js";
import { LateStart } from "./lateStart.js";
import { type Mix, mixKey, scaled, silence, summed } from "./mix.js";

export interface CompileOptions {
  readonly rateHz: number;
  readonly interpolation?: PedalUse["interpolation"];
  /** Sound files that settings name, at `rateHz`, by the value of the setting. */
  readonly clips?: PedalUse["clips"];
  readonly blockFrames?: number;
  /** Footswitches that are pressed while the take plays. */
  readonly press?: Press;
}

/** One press of some footswitches: whatever the wiring says of them, they are `to` from `frame` of the take on. */
export interface Press {
  /** Ids as in `footswitches.ts`: of pedals' boxes, of mutes. */
  readonly switches: ReadonlySet<string>;
  readonly to: "on" | "off";
  readonly frame: number;
  readonly fadeFrames: number;
}

/** Frames that the engine runs at a time: long enough to pay for the calls, short enough to stay in the cache. */
export const defaultBlockFrames = 1024;

/**
 * All wirings as one graph. Outputs come in pairs: `outputs[2 * n]` is the left channel of wiring n, `2 * n + 1` the
 * right; a destination with one input plays it on both.
 * @throws Error when a wiring has not passed `checkWiring`
 */
export function compile(wirings: readonly Wiring[], options: CompileOptions): Graph {
  return compileWithMixers(wirings, [], options);
}

/** A mixer of one of the wirings, by the wiring's place in their list and the box's id. */
export interface MixerPlace {
  readonly wiring: number;
  readonly mixer: string;
}

/**
 * As `compile`; behind the pairs come the signals that arrive at each of `mixers`, in the order of its inputs, for
 * those who mix by themselves. All are late alike, and nothing is computed twice.
 */
export function compileWithMixers(
  wirings: readonly Wiring[],
  mixers: readonly MixerPlace[],
  options: CompileOptions,
): Graph {
  const builder = new GraphBuilder();
  const compilers = wirings.map((wiring) => new WiringCompiler(wiring, builder, options));
  const pairs = compilers.flatMap((compiler) => {
    const [left, right] = compiler.destination();
    return [left!, right ?? left!];
  });
  const mixed = mixers.flatMap(({ wiring, mixer }) => compilers[wiring].inputsOf(mixer));
  return builder.build([...pairs, ...mixed], options.blockFrames ?? defaultBlockFrames);
}

/** The signal on every cable of each wiring, wiring after wiring, in the order of their cables; all are late alike. */
export function compileTaps(wirings: readonly Wiring[], options: CompileOptions): Graph {
  const builder = new GraphBuilder();
  const outputs = wirings.flatMap((wiring) => new WiringCompiler(wiring, builder, options).cables());
  return builder.build(outputs, options.blockFrames ?? defaultBlockFrames);
}

/**
 * The inside of a wiring: the signal on every cable, in their order, then of each of `pedals`, by box id, what its effect
 * hears and what it gives; all are late alike.
 */
export function compileInside(wiring: Wiring, pedals: readonly string[], options: CompileOptions): Graph {
  const builder = new GraphBuilder();
  const compiler = new WiringCompiler(wiring, builder, options);
  const outputs = [...compiler.cables(), ...pedals.flatMap((id) => compiler.inside(id))];
  return builder.build(outputs, options.blockFrames ?? defaultBlockFrames);
}

/** Walks one wiring from the destination back to the take. */
export class WiringCompiler {
  readonly #builder: GraphBuilder;
  readonly #options: CompileOptions;
  readonly #boxes: ReadonlyMap<string, Box>;
  readonly #wiring: Wiring;
  readonly #cableInto: ReadonlyMap<string, Jack>;
  readonly #done = new Map<string, readonly Mix[]>();
  /** What loading changes with the pressed switches on, and with them off; without a press both are one. */
  readonly #loading: Readonly<Record<"on" | "off", LoadingChanges>>;

  constructor(wiring: Wiring, builder: GraphBuilder, options: CompileOptions) {
    this.#builder = builder;
    this.#options = options;
    this.#wiring = wiring;
    this.#boxes = new Map(wiring.boxes.map((box) => [box.id, box]));
    this.#cableInto = new Map(wiring.cables.map(({ from, to }) => [`${to.box}\n${to.jack}`, from]));
    this.#loading = loadingOf(wiring, options.press);
  }

  destination(): readonly Mix[] {
    const destination = [...this.#boxes.values()].find(({ kind }) => kind === "destination");
    if (!destination) throw new Error("a wiring without a destination cannot be compiled");
    return this.#inputs(destination);
  }

  inputsOf(id: string): readonly Mix[] {
    const box = this.#boxes.get(id);
    if (!box) throw new Error(`no box "${id}" in this wiring`);
    return this.#inputs(box);
  }

  cables(): readonly Mix[] {
    return this.#wiring.cables.map(({ from }) => this.#at(from));
  }

  /** What a pedal's effect hears, and what it gives. */
  inside(id: string): readonly Mix[] {
    const box = this.#boxes.get(id);
    if (box?.kind !== "pedal") throw new Error(`no pedal "${id}" in this wiring`);
    const heard = this.#heard(box, this.#inputs(box));
    return [...heard, ...this.#effect(box, heard)];
  }

  #inputs(box: Box): readonly Mix[] {
    return inputJacks(box).map((jack) => {
      const from = this.#cableInto.get(`${box.id}\n${jack}`);
      return from ? this.#at(from) : silence;
    });
  }

  /** The signal at an output jack. */
  #at({ box: id, jack }: Jack): Mix {
    const box = this.#boxes.get(id);
    if (!box) throw new Error(`no box "${id}" in this wiring`);
    const done = this.#done.get(id) ?? this.#outputs(box);
    this.#done.set(id, done);
    return done[outputJacks(box).indexOf(jack)] ?? silence;
  }

  /** The signals at all output jacks of a box, in channel order. */
  #outputs(box: Box): readonly Mix[] {
    const inputs = this.#inputs(box);
    switch (box.kind) {
      case "take":
        return this.#loaded(box, through(gainsOf(box), this.#takes(box.channels), mixed));
      case "destination":
        return [];
      case "pedal": {
        const { press } = this.#options;
        return press?.switches.has(box.id)
          ? this.#pressed(box, inputs, press)
          : this.#loaded(box, this.#pedal(box, inputs));
      }
      default:
        return this.#loaded(box, this.#passive(box, inputs));
    }
  }

  /** A splitter, summing box or mixer. What a pressed mute stands on fades in or out. */
  #passive(box: BoxPart, inputs: readonly Mix[]): readonly Mix[] {
    const { press } = this.#options;
    if (!press) return through(gainsOf(box), inputs, mixed);
    const unmuted = withMutesSet(box, (id, now) => now && !press.switches.has(id));
    const muting = (jacks: readonly string[]) => (mix: Mix, n: number) =>
      press.switches.has(switchId(box.id, jacks[n])) ? this.#gated(mix, press) : mix;
    const fed = inputs.map(muting(inputJacks(box)));
    return through(gainsOf(unmuted), fed, mixed).map(muting(outputJacks(box)));
  }

  /** Silence before a press on, and behind a press off. */
  #gated(mix: Mix, press: Press): Mix {
    return press.to === "on" ? this.#faded(silence, mix, press) : this.#faded(mix, silence, press);
  }

  #takes(channels: 1 | 2): readonly Mix[] {
    const sides = channels === 1 ? ([0] as const) : ([0, 1] as const);
    return sides.map((side) => [{ signal: this.#builder.take(side), gain: 1 }]);
  }

  /**
   * A box whose footswitch is pressed. Muting ones open or close at their input, so that trails ring out; others fade
   * between their sound and what passes them, and by true bypass they have heard nothing while they were off.
   */
  #pressed(box: PedalBox, inputs: readonly Mix[], press: Press): readonly Mix[] {
    const opens = press.to === "on";
    const played = { ...box, on: true };
    const gated = () => inputs.map((mix) => this.#gated(mix, press));
    const { whenOff } = box.pedal;
    if (whenOff === "muted") return this.#loaded(box, this.#pedal(played, gated()));
    const heard = whenOff === "true-bypass" && opens ? gated() : inputs;
    const on = this.#loadedAs("on", box, this.#pedal(played, heard));
    const off = this.#loadedAs("off", box, this.#pedal({ ...box, on: false }, inputs));
    return on.map((mix, n) => (opens ? this.#faded(off[n], mix, press) : this.#faded(mix, off[n], press)));
  }

  /** What the signals at a box's outputs are with what hangs on them; a press may change that while they sound. */
  #loaded(box: Box, mixes: readonly Mix[]): readonly Mix[] {
    const { press } = this.#options;
    const on = this.#loadedAs("on", box, mixes);
    if (!press) return on;
    const off = this.#loadedAs("off", box, mixes);
    const [before, after] = press.to === "on" ? [off, on] : [on, off];
    return before.map((mix, n) =>
      mixKey(mix) === mixKey(after[n]) ? mix : this.#faded(mix, after[n], press),
    );
  }

  #loadedAs(state: "on" | "off", box: Box, mixes: readonly Mix[]): readonly Mix[] {
    const jacks = outputJacks(box);
    return mixes.map((mix, n) => {
      const change = this.#loading[state].get(jackKey(box.id, jacks[n]));
      if (!change) return mix;
      return scaled(change.circuit ? this.#throughCircuit(change.circuit, mix) : mix, change.gain);
    });
  }

  #throughCircuit(circuit: LoadedCircuit, mix: Mix): Mix {
    const make = () => new Convolution([[loadingTaps(circuit, this.#options.rateHz)]]);
    const key = `circuit ${JSON.stringify(circuit)}`;
    const [signal] = this.#builder.add(key, make, [mix], 1, { costNs: circuitCostNs });
    return [{ signal, gain: 1 }];
  }

  #faded(before: Mix, after: Mix, { frame, fadeFrames }: Press): Mix {
    const make = (lag: number) => new Crossfade(frame + lag, fadeFrames);
    const [signal] = this.#builder.add(`fade ${frame} ${fadeFrames}`, make, [before, after], 1);
    return [{ signal, gain: 1 }];
  }

  #pedal(box: PedalBox, inputs: readonly Mix[]): readonly Mix[] {
    const heard = this.#heard(box, inputs);
    const effect = isWet(box) ? this.#effect(box, heard) : [];
    return through([outOfPedal(box)], [...heard, ...effect], mixed);
  }

  #heard(box: PedalBox, inputs: readonly Mix[]): readonly Mix[] {
    return this.#late(through([intoPedal(box)], inputs, mixed), delayMsOf(box));
  }

  #effect({ pedal: { model: word, settings }, outputs }: PedalBox, fed: readonly Mix[]): readonly Mix[] {
    const model = modelOf(word);
    const { rateHz, interpolation = "cubic", clips = new Map() } = this.#options;
    const use: PedalUse = { rateHz, interpolation, clips, inputs: fed.length === 2 ? 2 : 1, outputs };
    const key = `${word} ${JSON.stringify(kernelSettings(model, settings))}`;
    const lagFrames = model.latencyFrames?.(settings, rateHz) ?? 0;
    // What swings must stand where it is set when the take starts, not when the graph does.
    const make = (inputLag: number) => {
      const kernel = model.kernel(settings, use);
      return model.changesInTime && inputLag > 0 ? new LateStart(kernel, inputLag) : kernel;
    };
    const signals = this.#builder.add(key, make, fed, outputs, { lagFrames, costNs: model.costNs });
    return signals.map((signal) => [{ signal, gain: 1 }]);
  }

  /** A pedal's latency stands at its input, so that dry, wet and muted twin share one delay. */
  #late(mixes: readonly Mix[], latencyMs: number): readonly Mix[] {
    const frames = msToFrames(latencyMs, this.#options.rateHz);
    if (frames === 0) return mixes;
    return mixes.map((mix) => {
      if (mix.length === 0) return silence;
      const [signal] = this.#builder.add(`latency ${frames}`, () => new FractionalDelay(frames), [mix], 1);
      return [{ signal: signal!, gain: 1 }];
    });
  }
}

/** Of the filter of an instrument's circuit, as `PedalModel.costNs`. */
const circuitCostNs = 50;

function loadingOf(wiring: Wiring, press: Press | undefined): Readonly<Record<"on" | "off", LoadingChanges>> {
  if (!press) {
    const changes = loadingChanges(wiring);
    return { on: changes, off: changes };
  }
  const standing = (on: boolean): Wiring => ({
    cables: wiring.cables,
    boxes: wiring.boxes.map((box) =>
      box.kind === "pedal" && press.switches.has(box.id) ? { ...box, on } : box,
    ),
  });
  return { on: loadingChanges(standing(true)), off: loadingChanges(standing(false)) };
}

const mixed = (mixes: readonly Mix[], gains: readonly number[]): Mix =>
  summed(mixes.map((mix, n) => scaled(mix, gains[n])));

/** Settings that the kernel hears: all but the mix, which only the blend reads, so that sharing is not hindered. */
const kernelSettings = ({ additive }: PedalModel, settings: Pedal["settings"]) =>
  Object.entries(settings).filter(([key]) => !(additive && key === "mix"));
