import { withUnitsMuted } from "../../rig/wiring/muted.js";
import type { Wiring } from "../../rig/wiring/wiring.js";
import type { Block } from "../../sound/dsp/kernel.js";
import { powerToDb } from "../../sound/dsp/units.js";
import { type DecayReading, decayTimes } from "../../sound/measure/decay.js";
import type { Measures } from "../../sound/measure/measures.js";
import { StereoMeter } from "../../sound/measure/stereoMeter.js";
import { compile } from "../render/compile.js";
import { render, type TailRule } from "../render/render.js";
import type { TakeSource } from "../render/takeSource.js";
import type { TrackSink } from "../render/trackSink.js";

/** Wirings that one thread renders together, and all that it needs for it. Plain data. */
export interface PartJob {
  readonly wirings: readonly { readonly id: string; readonly wiring: Wiring }[];
  readonly take: TakeSource;
  readonly rateHz: number;
  readonly clips: ReadonlyMap<string, readonly Float32Array[]>;
  readonly tail: TailRule;
  /** Folder for the spools of a run on disk; not read where sound stays in memory. */
  readonly folder: string;
  /** Rendezvous of all parts; null for one part. */
  readonly meeting: Int32Array | null;
  readonly parts: number;
  /** Frames done, one entry a part. */
  readonly progress: Int32Array;
  readonly part: number;
}

export interface PartResult {
  readonly frames: number;
  readonly readings: readonly Reading[];
}

/** What was learned of one wiring on the way; `measures` lack what only a comparison of several can say. */
export interface Reading {
  readonly id: string;
  /** What the part's `openTrack` called the place where the sound went. */
  readonly spool: string;
  readonly measures: Measures;
  /** Powers of the loudness gating blocks, for matching. */
  readonly blockPowers: Float64Array;
  readonly wetToDryDb: number | null;
  readonly wetToDryReason: string | null;
  readonly decay: DecayReading;
}

/** Times that the parts of one comparison agree on a length. */
export const meetingRounds = 2;

/**
 * Renders and measures a part's wirings in one pass, then their impulse responses.
 * @param openTrack gives the sink of wiring `n` of this part
 * @param agree     told the frames that this part needs, gives the frames that all parts render; round 0 is the take,
 *                  round 1 the impulse
 */
export function renderPart(
  job: PartJob,
  openTrack: (id: string, n: number) => TrackSink,
  agree: (needed: number, round: number) => number,
): PartResult {
  const { wirings, take, rateHz, clips, tail, progress, part } = job;
  const muted = wirings.map(({ wiring }) => withUnitsMuted(wiring));
  const twins = muted.filter((wiring) => wiring !== null);
  const graph = compile([...wirings.map(({ wiring }) => wiring), ...twins], { rateHz, clips });
  let twin = wirings.length;
  const tracks = wirings.map(
    ({ id }, n) => new Track(id, openTrack(id, n), rateHz, muted[n] ? twin++ : null),
  );

  const frames = render(graph, {
    take,
    rateHz,
    tail,
    watched: 2 * wirings.length,
    agree: (needed) => agree(needed, 0),
    onFrames: (done) => {
      progress[part] = done;
    },
    sink: (outputs, count) => {
      for (let n = 0; n < tracks.length; n++) tracks[n].push(outputs, n, count);
    },
  });
  const decays = impulseDecays(job, (needed) => agree(needed, 1));
  return { frames, readings: tracks.map((track, n) => track.close(decays[n])) };
}

/** Where one routing's sound goes while it is rendered: spool, meter, and the energies of its wet and dry parts. */
class Track {
  readonly #id: string;
  readonly #sink: TrackSink;
  readonly #meter: StereoMeter;
  readonly #twin: number | null;
  #wetEnergy = 0;
  #dryEnergy = 0;

  constructor(id: string, sink: TrackSink, rateHz: number, twin: number | null) {
    this.#id = id;
    this.#sink = sink;
    this.#meter = new StereoMeter(rateHz);
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

  close(decay: DecayReading): Reading {
    this.#sink.close();
    const reason = this.#wetToDryReason();
    return {
      id: this.#id,
      spool: this.#sink.place,
      measures: this.#meter.result(),
      blockPowers: this.#meter.gatingBlocks(),
      wetToDryDb: reason === null ? powerToDb(this.#wetEnergy / this.#dryEnergy) : null,
      wetToDryReason: reason,
      decay,
    };
  }

  #weigh(full: Float32Array, dry: Float32Array, frames: number): void {
    let wetEnergy = 0;
    let dryEnergy = 0;
    for (let n = 0; n < frames; n++) {
      const wet = full[n] - dry[n];
      wetEnergy += wet * wet;
      dryEnergy += dry[n] * dry[n];
    }
    this.#wetEnergy += wetEnergy;
    this.#dryEnergy += dryEnergy;
  }

  #wetToDryReason(): string | null {
    if (this.#twin === null) return "no mono unit in this wiring";
    if (this.#dryEnergy === 0) return "nothing gets round the unit: all of it is wet";
    if (this.#wetEnergy === 0) return "nothing of the unit's effect arrives";
    return null;
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

/** Decay of each wiring's own response to a single impulse. */
function impulseDecays(
  { wirings, rateHz, clips, tail }: PartJob,
  agree: (needed: number) => number,
): readonly DecayReading[] {
  const graph = compile(
    wirings.map(({ wiring }) => wiring),
    { rateHz, clips },
  );
  const blocks: Float32Array[][] = graph.outputs.map(() => []);
  render(graph, {
    take: singleImpulse,
    rateHz,
    tail: impulseTail(tail),
    agree,
    sink: (outputs, frames) => {
      for (let n = 0; n < outputs.length; n++) blocks[n].push(outputs[n].slice(0, frames));
    },
  });
  return wirings.map((_, n) => decayTimes([joined(blocks[2 * n]), joined(blocks[2 * n + 1])], rateHz));
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
