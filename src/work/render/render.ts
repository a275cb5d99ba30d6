import type { TakeSource } from "../../sound/audio/takeSource.js";
import type { Block } from "../../sound/dsp/kernel.js";
import { secondsToFrames } from "../../sound/dsp/units.js";
import type { Graph } from "./graph.js";

/** When a render may end after the take. */
export interface TailRule {
  /** The tail is over once every output stays this far below its loudest 100 ms. */
  readonly dropDb: number;
  /** The tail is cut here, whatever it does. */
  readonly capSeconds: number;
  /** Silence that may stand inside a tail: the sum of the pedals' `silenceMs`. */
  readonly silenceSeconds: number;
}

/** Takes what was rendered, in order. `outputs` is valid during the call only; `frames` of it count. */
export type Sink = (outputs: Block, frames: number) => void;

export interface RenderOptions {
  readonly take: TakeSource;
  readonly rateHz: number;
  readonly tail: TailRule;
  readonly sink: Sink;
  /** How many of the outputs, from the first, decide when the tail has died; all unless told otherwise. */
  readonly watched?: number;
  /** Told the frames that this graph needs; gives the frames that all graphs render. */
  readonly agree?: (neededFrames: number) => number;
  /** Told once the tail is over: frames that each watched output needed, no fewer than the take has. */
  readonly onNeeds?: (neededFrames: readonly number[]) => void;
  /** Told every 100 ms of sound, in the tail too, how many frames of the take are done; throw to stop. */
  readonly onFrames?: (frames: number) => void;
}

const windowSeconds = 0.1;

/**
 * Runs a take through a graph, block by block, and on until the tail has died.
 * @returns frames rendered: the take, and the tail that its outputs needed (or what `agree` said)
 */
export function render(graph: Graph, options: RenderOptions): number {
  const { take, rateHz, tail, sink, watched = graph.outputs.length } = options;
  const { agree = (frames: number) => frames, onFrames = () => {}, onNeeds = () => {} } = options;
  const window = Math.max(1, secondsToFrames(windowSeconds, rateHz));
  const run = new Run(graph, take);
  run.skip(graph.lagFrames);

  const tell = () => onFrames(Math.min(run.frames, take.length));
  const watch = new TailWatch(watched, 10 ** (-tail.dropDb / 10));
  while (run.frames < take.length) {
    const frames = Math.min(window, take.length - run.frames);
    run.forward(frames, (outputs, count) => {
      watch.add(outputs, count);
      sink(outputs, count);
    });
    watch.endWindow(run.frames);
    tell();
  }

  const pending = new Pending(graph.outputs.length);
  const hold = secondsToFrames(tail.silenceSeconds, rateHz) + window;
  const last = take.length + secondsToFrames(tail.capSeconds, rateHz);
  while (pending.frames < hold && run.frames < last) {
    const frames = Math.min(window, last - run.frames);
    run.forward(frames, (outputs, count) => {
      watch.add(outputs, count);
      pending.add(outputs, count);
    });
    if (watch.endWindow(run.frames)) pending.flush(sink);
    tell();
  }

  const needed = run.frames - pending.frames;
  onNeeds(watch.heardUntil.map((frames) => Math.max(frames, take.length)));
  const agreed = Math.max(needed, agree(needed));
  pending.flush(sink, agreed - needed);
  while (run.frames < agreed) {
    run.forward(Math.min(window, agreed - run.frames), sink);
    tell();
  }
  return agreed;
}

/** A graph on its way through a take. */
class Run {
  /** Frames given out so far. */
  frames = 0;
  #fed = 0;
  readonly #graph: Graph;
  readonly #take: TakeSource;
  constructor(graph: Graph, take: TakeSource) {
    this.#graph = graph;
    this.#take = take;
  }
  /** Feeds frames whose output is only the graph's own lag. */
  skip(frames: number): void {
    this.#feed(frames, () => {});
  }
  forward(frames: number, sink: Sink): void {
    this.#feed(frames, sink);
    this.frames += frames;
  }
  #feed(frames: number, sink: Sink): void {
    for (let left = frames; left > 0; ) {
      const block = Math.min(left, this.#graph.blockFrames);
      this.#graph.process(this.#take, this.#fed, block);
      sink(this.#graph.outputs, block);
      this.#fed += block;
      left -= block;
    }
  }
}

/** Energies of the outputs in 100 ms windows, against the loudest window of each. */
class TailWatch {
  /** Where the last window ended in which each output was to be heard. */
  readonly heardUntil: number[];
  readonly #now: Float64Array;
  readonly #loudest: Float64Array;
  readonly #drop: number;
  constructor(outputs: number, drop: number) {
    this.#now = new Float64Array(outputs);
    this.#loudest = new Float64Array(outputs);
    this.#drop = drop;
    this.heardUntil = Array<number>(outputs).fill(0);
  }
  add(outputs: Block, frames: number): void {
    for (let k = 0; k < this.#now.length; k++) {
      const output = outputs[k];
      let energy = 0;
      for (let n = 0; n < frames; n++) energy += output[n] * output[n];
      this.#now[k] += energy;
    }
  }
  /** True when some output is still to be heard in the window that ends here, at frame `at`. */
  endWindow(at: number): boolean {
    let heard = false;
    for (let k = 0; k < this.#now.length; k++) {
      if (this.#now[k] > this.#loudest[k]) this.#loudest[k] = this.#now[k];
      if (this.#now[k] > this.#loudest[k] * this.#drop) {
        this.heardUntil[k] = at;
        heard = true;
      }
      this.#now[k] = 0;
    }
    return heard;
  }
}

/** Quiet blocks held back until it is known whether the tail goes on behind them. */
class Pending {
  frames = 0;
  #blocks: Float32Array[][] = [];
  readonly #channels: number;
  constructor(channels: number) {
    this.#channels = channels;
  }
  /** Outputs that share a buffer share its copy. */
  add(outputs: Block, frames: number): void {
    const copies = new Map(outputs.map((output) => [output, output.slice(0, frames)]));
    this.#blocks.push(Array.from({ length: this.#channels }, (_, k) => copies.get(outputs[k])!));
    this.frames += frames;
  }
  /** Gives out what is held, or its first `most` frames; the rest is forgotten. */
  flush(sink: Sink, most = Number.POSITIVE_INFINITY): void {
    let left = most;
    for (const block of this.#blocks) {
      const frames = Math.min(left, block[0]?.length ?? 0);
      if (frames > 0) sink(block, frames);
      left -= frames;
    }
    this.#blocks = [];
    this.frames = 0;
  }
}
