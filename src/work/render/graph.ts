import { channelOf, readFrames, type TakeSource } from "../../sound/audio/takeSource.js";
import type { Kernel } from "../../sound/dsp/kernel.js";
import { LagKernel, type Mix, MixKernel, mixKey, scaled, summed } from "./mix.js";

/** What makes a kernel, with the numbers of the signals it reads and writes. */
interface Node {
  /** See `PedalModel.costNs`. */
  readonly costNs: number;
  readonly make: () => Kernel;
  readonly inputs: readonly number[];
  readonly outputs: readonly number[];
}

/** Number of the take among a graph's signals: of its only channel, or the left one. */
const takeSignal = 0;

/**
 * Collects nodes, each once: what is equal in kind, settings and inputs is one node, whoever asks. Nodes are made in
 * the order in which they are asked for, inputs first, so that the list is in topological order by itself.
 *
 * A kernel may come `lagFrames` late by its own working (an oversampling filter). Wherever signals meet, the earlier
 * ones are delayed to the latest, so the lag never sounds: it only shifts the whole output, by `Graph.lagFrames`.
 */
export class GraphBuilder {
  readonly #nodes: Node[] = [];
  readonly #known = new Map<string, readonly number[]>();
  /** Lag of each signal, in frames. */
  readonly #lags: number[] = [0];
  /** The take's signals that are asked for: the left, and the right where an instrument has two outputs. */
  readonly #takes: number[] = [takeSignal];

  /** The signal of an instrument's output: 0 is the left or only one. */
  take(side: 0 | 1): number {
    if (side === 1 && this.#takes.length === 1) this.#takes.push(this.#lags.push(0) - 1);
    return this.#takes[side];
  }

  /** Nodes collected so far. */
  get nodeCount(): number {
    return this.#nodes.length;
  }

  /**
   * Signals of a kernel fed by `inputs`. `key` names kind and settings; `make` runs only for a node that is used, and is
   * told how many frames late its inputs come.
   */
  add(
    key: string,
    make: (inputLagFrames: number) => Kernel,
    inputs: readonly Mix[],
    outputs: number,
    { lagFrames = 0, costNs = slightNs }: { readonly lagFrames?: number; readonly costNs?: number } = {},
  ): readonly number[] {
    const fed = this.#aligned(inputs).map((mix) => this.#signalOf(mix));
    const fullKey = `${key}(${fed.join(",")})${outputs}`;
    const known = this.#known.get(fullKey);
    if (known) return known;
    const inputLag = Math.max(0, ...fed.map((signal) => this.#lagOf(signal)));
    const lag = inputLag + lagFrames;
    const signals = Array.from({ length: outputs }, () => this.#lags.push(lag) - 1);
    this.#nodes.push({ costNs, make: () => make(inputLag), inputs: fed, outputs: signals });
    this.#known.set(fullKey, signals);
    return signals;
  }

  /** The nodes that these mixes depend on: equal ones are one object. */
  nodesOf(mixes: readonly Mix[]): ReadonlySet<Pick<Node, "costNs" | "outputs">> {
    return new Set(
      usedNodes(
        this.#nodes,
        mixes.flat().map(({ signal }) => signal),
      ),
    );
  }

  /** A graph whose outputs are these mixes, block by block, all equally late. */
  build(outputs: readonly Mix[], blockFrames: number): Graph {
    const signals = this.#aligned(outputs).map((mix) => this.#signalOf(mix));
    const lagFrames = Math.max(0, ...signals.map((signal) => this.#lagOf(signal)));
    return new Graph(this.#nodes, signals, { takes: this.#takes, lagFrames, blockFrames });
  }

  /** The same mixes with every term delayed to the latest of them all. */
  #aligned(mixes: readonly Mix[]): readonly Mix[] {
    const latest = Math.max(0, ...mixes.flat().map(({ signal }) => this.#lagOf(signal)));
    return mixes.map((mix) =>
      summed(
        mix.map(({ signal, gain }) => scaled([{ signal: this.#delayed(signal, latest), gain: 1 }], gain)),
      ),
    );
  }

  #delayed(signal: number, lag: number): number {
    const frames = lag - this.#lagOf(signal);
    if (frames === 0 || signal === silentSignal) return signal;
    const key = `lag ${frames}(${signal})`;
    const known = this.#known.get(key);
    if (known) return known[0];
    const late = this.#lags.push(lag) - 1;
    const make = () => new LagKernel(frames);
    this.#nodes.push({ costNs: slightNs, make, inputs: [signal], outputs: [late] });
    this.#known.set(key, [late]);
    return late;
  }

  /** The number of a mix: its only signal as it is, silence, or a mixing node. */
  #signalOf(mix: Mix): number {
    if (mix.length === 0) return silentSignal;
    if (mix.length === 1 && mix[0].gain === 1) return mix[0].signal;
    const key = `mix ${mixKey(mix)}`;
    const known = this.#known.get(key);
    if (known) return known[0];
    const signal = this.#lags.push(Math.max(...mix.map((term) => this.#lagOf(term.signal)))) - 1;
    const make = () => new MixKernel(mix.map(({ gain }) => gain));
    const inputs = mix.map((term) => term.signal);
    this.#nodes.push({ costNs: slightNs, make, inputs, outputs: [signal] });
    this.#known.set(key, [signal]);
    return signal;
  }

  #lagOf(signal: number): number {
    return signal === silentSignal ? 0 : this.#lags[signal];
  }
}

const silentSignal = -1;

/** What a frame of a sum, a delay or a fade takes, as `PedalModel.costNs`. */
const slightNs = 5;

interface GraphFrame {
  /** Signals that the take's channels are. */
  readonly takes: readonly number[];
  readonly lagFrames: number;
  readonly blockFrames: number;
}

/**
 * Kernels in topological order with the buffers between them. A buffer is used again once the last reader of its
 * signal has run, so memory grows with what is in flight, not with the number of nodes.
 */
export class Graph {
  /** Every output comes this many frames late. */
  readonly lagFrames: number;
  readonly nodeCount: number;
  readonly blockFrames: number;
  readonly bufferCount: number;
  /** One a mix given to `build`; filled by `process`. */
  readonly outputs: readonly Float32Array[];
  /** One for the take, or one for each of its sides. */
  readonly #takes: readonly Float32Array[];
  readonly #steps: readonly {
    kernel: Kernel;
    inputs: readonly Float32Array[];
    outputs: readonly Float32Array[];
  }[];

  constructor(
    nodes: readonly Node[],
    outputs: readonly number[],
    { takes, lagFrames, blockFrames }: GraphFrame,
  ) {
    const used = usedNodes(nodes, outputs);
    const buffers = new Buffers(used, outputs, blockFrames);
    this.lagFrames = lagFrames;
    this.blockFrames = blockFrames;
    this.nodeCount = used.length;
    this.#takes = takes.map((signal) => buffers.first(signal));
    this.#steps = used.map(({ make, inputs, outputs: written }, step) => ({
      kernel: make(),
      inputs: inputs.map((signal) => buffers.of(signal)),
      outputs: buffers.open(written, step),
    }));
    this.outputs = outputs.map((signal) => buffers.of(signal));
    this.bufferCount = buffers.count;
  }

  /** Runs up to `blockFrames` frames of the take from `start`; frames past its end are silence. */
  process(take: TakeSource, start: number, frames: number): void {
    this.#takes.forEach((buffer, n) => {
      readFrames(channelOf(take, n === 0 ? 0 : 1), start, frames, buffer);
    });
    for (const { kernel, inputs, outputs } of this.#steps) kernel.process(inputs, outputs, frames);
  }
}

/** Nodes that an output depends on, in order. */
function usedNodes(nodes: readonly Node[], outputs: readonly number[]): readonly Node[] {
  const needed = new Set(outputs);
  const used: Node[] = [];
  for (const node of [...nodes].reverse()) {
    if (!node.outputs.some((signal) => needed.has(signal))) continue;
    used.push(node);
    for (const signal of node.inputs) needed.add(signal);
  }
  return used.reverse();
}

/** Hands out buffers to signals and takes them back after the last reader. */
class Buffers {
  count = 0;
  readonly #frames: number;
  readonly #silence: Float32Array;
  readonly #free: Float32Array[] = [];
  readonly #held = new Map<number, Float32Array>();
  readonly #lastReader = new Map<number, number>();
  readonly #ending: (readonly number[])[];

  constructor(nodes: readonly Node[], outputs: readonly number[], frames: number) {
    this.#frames = frames;
    this.#silence = new Float32Array(frames);
    nodes.forEach(({ inputs, outputs: written }, step) => {
      for (const signal of [...inputs, ...written]) this.#lastReader.set(signal, step);
    });
    for (const signal of outputs) this.#lastReader.set(signal, nodes.length);
    this.#ending = nodes.map((_, step) =>
      [...this.#lastReader].filter(([, last]) => last === step).map(([s]) => s),
    );
  }

  first(signal: number): Float32Array {
    const buffer = this.#next();
    this.#held.set(signal, buffer);
    return buffer;
  }

  of(signal: number): Float32Array {
    return this.#held.get(signal) ?? this.#silence;
  }

  /** Buffers for what a step writes; then those of signals that it was the last to use are free again. */
  open(signals: readonly number[], step: number): readonly Float32Array[] {
    const opened = signals.map((signal) => this.first(signal));
    for (const signal of this.#ending[step]) {
      const buffer = signal >= 0 ? this.#held.get(signal) : undefined;
      if (buffer) this.#free.push(buffer);
    }
    return opened;
  }

  #next(): Float32Array {
    const free = this.#free.pop();
    if (free) return free;
    this.count++;
    return new Float32Array(this.#frames);
  }
}
