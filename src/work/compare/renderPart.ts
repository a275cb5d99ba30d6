import { combOf } from "../../rig/wiring/dryPaths.js";
import { withUnitsMuted } from "../../rig/wiring/muted.js";
import type { Wiring } from "../../rig/wiring/wiring.js";
import type { TakeSource } from "../../sound/audio/takeSource.js";
import type { Block } from "../../sound/dsp/kernel.js";
import type { ImpulseResponse, Known, RigFacts, WetAndDry } from "../../sound/measure/facts.js";
import { FactsMeter } from "../../sound/measure/factsMeter.js";
import { rigMeasuresOf, soundMeasuresOf } from "../../sound/measure/fill.js";
import { compile } from "../render/compile.js";
import type { Reading } from "../render/reading.js";
import { type RenderOptions, render, type TailRule } from "../render/render.js";
import type { TrackSink } from "../render/trackSink.js";

/** What to render and measure: wirings that share a take and are compiled together. Plain data. */
export interface PartJob {
  readonly wirings: readonly { readonly id: string; readonly wiring: Wiring }[];
  readonly take: TakeSource;
  readonly rateHz: number;
  readonly clips: ReadonlyMap<string, readonly Float32Array[]>;
  readonly tail: TailRule;
}

/** What a part asks and tells while it is rendered. */
export interface PartHooks {
  /** Where the sound of wiring `n` of this part goes. */
  readonly openTrack: (n: number) => TrackSink;
  /** Told the frames that this part needs, gives those that all render; round 0 is the take, round 1 the impulse. */
  readonly agree: (needed: number, round: number) => number;
  /** Told the frames of the take that are done, and often after them; throw to stop. */
  readonly onFrames: (frames: number) => void;
  /** Told what the part goes on to, several times a block. */
  readonly onStage?: (stage: PartStage) => void;
}

/** What time goes into: kernels, meters, waiting for the other parts, the same of impulses, figures of all. */
export type PartStage = "render" | "measure" | "wait" | "impulses" | "figures";

export interface PartResult {
  readonly frames: number;
  /** In the order of the wirings. */
  readonly readings: readonly Reading[];
}

/** Times that the parts of one comparison agree on a length. */
export const meetingRounds = 2;

/** Renders and measures a part's wirings in one pass, then their impulse responses. */
export function renderPart(
  job: PartJob,
  { openTrack, onFrames, onStage = () => {}, ...hooks }: PartHooks,
): PartResult {
  const agree = (needed: number, round: number, then: PartStage): number => {
    onStage("wait");
    const agreed = hooks.agree(needed, round);
    onStage(then);
    return agreed;
  };
  const { wirings, take, rateHz, clips, tail } = job;
  const muted = wirings.map(({ wiring }) => withUnitsMuted(wiring));
  const twins = muted.filter((wiring) => wiring !== null);
  const graph = compile([...wirings.map(({ wiring }) => wiring), ...twins], { rateHz, clips });
  let twin = wirings.length;
  const tracks = muted.map((wiring, n) => new Track(openTrack(n), rateHz, wiring ? twin++ : null));

  const frames = render(graph, {
    take,
    rateHz,
    tail,
    watched: 2 * wirings.length,
    agree: (needed) => agree(needed, 0, "render"),
    onFrames,
    sink: (outputs, count) => {
      onStage("measure");
      for (let n = 0; n < tracks.length; n++) tracks[n].push(outputs, n, count);
      onStage("render");
    },
  });
  onStage("impulses");
  const responseOf = impulseResponses(job, {
    agree: (needed) => agree(needed, 1, "impulses"),
    onFrames: () => onFrames(take.length),
  });
  onStage("figures");
  const readings = wirings.map(({ id, wiring }, n) => {
    const { sound, wetAndDry } = tracks[n].close();
    const ofRig: RigFacts = { response: responseOf(n), wetAndDry, comb: combOf(wiring) };
    return {
      id,
      sound: soundMeasuresOf(sound),
      rig: rigMeasuresOf({ ...sound, ...ofRig }),
      blockPowers: sound.loudness?.blocks,
    };
  });
  return { frames, readings };
}

/** Where one routing's sound goes while it is rendered: sink, meter, and the energies of its wet and dry parts. */
class Track {
  readonly #sink: TrackSink;
  readonly #meter: FactsMeter;
  readonly #twin: number | null;
  #wet = 0;
  #dry = 0;

  constructor(sink: TrackSink, rateHz: number, twin: number | null) {
    this.#sink = sink;
    this.#meter = new FactsMeter(rateHz);
    this.#twin = twin;
  }

  push(outputs: Block, at: number, frames: number): void {
    const left = outputs[2 * at];
    const right = outputs[2 * at + 1];
    this.#meter.push(left, right, frames);
    this.#sink.write(left, right, frames);
    if (this.#twin === null) return;
    this.#weigh(left, outputs[2 * this.#twin], frames);
    this.#weigh(right, outputs[2 * this.#twin + 1], frames);
  }

  close(): { readonly sound: Known; readonly wetAndDry: WetAndDry | null } {
    this.#sink.close();
    const wetAndDry = this.#twin === null ? null : { wet: this.#wet, dry: this.#dry };
    return { sound: this.#meter.facts(), wetAndDry };
  }

  #weigh(full: Float32Array, dry: Float32Array, frames: number): void {
    let wetEnergy = 0;
    let dryEnergy = 0;
    for (let n = 0; n < frames; n++) {
      const wet = full[n] - dry[n];
      wetEnergy += wet * wet;
      dryEnergy += dry[n] * dry[n];
    }
    this.#wet += wetEnergy;
    this.#dry += dryEnergy;
  }
}

/** An impulse must fall this far for a T30 by ISO 3382-1 (35 dB and 10 dB to the end), and some more to be sure. */
const impulseDropDb = 70;
const impulseCapSeconds = 20;

/** What responses are rendered with: one full-scale frame. */
export const singleImpulse = Float32Array.of(1);

/** When a response has died, for a rig whose takes end by `tail`. */
export const impulseTail = (tail: TailRule): TailRule => ({
  ...tail,
  dropDb: impulseDropDb,
  capSeconds: Math.min(impulseCapSeconds, tail.capSeconds),
});

/** Each wiring's own response to a single impulse, joined when it is asked for: together they take much memory. */
function impulseResponses(
  { wirings, rateHz, clips, tail }: PartJob,
  hooks: Pick<RenderOptions, "agree" | "onFrames">,
): (wiring: number) => ImpulseResponse {
  const graph = compile(
    wirings.map(({ wiring }) => wiring),
    { rateHz, clips },
  );
  const blocks: Float32Array[][] = graph.outputs.map(() => []);
  render(graph, {
    take: singleImpulse,
    rateHz,
    tail: impulseTail(tail),
    ...hooks,
    sink: (outputs, frames) => {
      for (let n = 0; n < outputs.length; n++) blocks[n].push(outputs[n].slice(0, frames));
    },
  });
  return (n) => ({ channels: [joined(blocks[2 * n]), joined(blocks[2 * n + 1])], rateHz });
}

function joined(blocks: readonly Float32Array[]): Float32Array {
  const whole = new Float32Array(blocks.reduce((frames, block) => frames + block.length, 0));
  let at = 0;
  for (const block of blocks) {
    whole.set(block, at);
    at += block.length;
  }
  return whole;
}
