import type { Block } from "../../sound/dsp/kernel.js";
import type { Known, RenderedPart, RigFacts } from "../../sound/measure/facts.js";
import { FactsMeter } from "../../sound/measure/factsMeter.js";
import type { Figure, FigureColumn } from "../../sound/measure/measure.js";
import { measures } from "../../sound/measure/measures.js";
import { impulseTail, singleImpulse } from "../compare/renderPart.js";
import { defaultBlockFrames } from "../render/compile.js";
import { render } from "../render/render.js";
import { tailRule } from "../render/tail.js";
import { BlockStems } from "./blockStems.js";
import { figureColumns, figuresOf } from "./figures.js";
import { GridRigs, wiringFor } from "./gridRigs.js";
import type { StemGains } from "./mixAlgebra.js";
import { exactly, type SweepInputs } from "./renderBlock.js";
import type { SweepBlock } from "./sweepLayout.js";

/** Settings of one track that are to be heard, not only computed. */
export interface RenderFiguresJob extends SweepInputs {
  readonly block: SweepBlock;
  readonly track: number;
  /** Settings, counted from 0, and their places in the grid. */
  readonly settings: readonly number[];
  readonly places: readonly number[];
}

/** Figures of a setting that was rendered, in the order of `figureNames`; null where the algebra is enough. */
export interface RenderedSetting {
  readonly setting: number;
  readonly figures: readonly Figure[];
}

/**
 * What only sound tells of settings; and some of what the algebra told already, so that the two can be compared.
 * @param onFrames  told often; throw to stop
 */
export function renderFigures(job: RenderFiguresJob, onFrames: () => void = () => {}): RenderedSetting[] {
  const { rig, plan, take, rateHz, clips, block, track, settings, places } = job;
  const gridRigs = new GridRigs(rig, plan);
  const stems = new BlockStems(plan, block, gridRigs, { rateHz, clips });
  const { routing } = stems.tracks[track];
  const gains = places.map((place) => stems.gainsOf(track, wiringFor(gridRigs.rigAt(place, 0), routing)));

  const mixes = gains.map((own) => new SoundingMix(own, rateHz));
  render(stems.graphOf(track), {
    take,
    rateHz,
    ...exactly(plan.frames),
    onFrames,
    sink: (outputs, frames) => {
      for (const mix of mixes) mix.push(outputs, frames);
    },
  });
  const response = impulseStems(job, stems, gridRigs, onFrames);
  return settings.map((setting, n) => {
    const ofRig: RenderedRigFacts = { response: { channels: sidesOf(response, gains[n]), rateHz } };
    const figures = figuresOf({ ...mixes[n].facts(), ...ofRig });
    return { setting, figures: figures.map((figure, k) => (isTaken(figureColumns[k]) ? figure : null)) };
  });
}

type RenderedRigFacts = Pick<RigFacts, RenderedPart & keyof RigFacts>;

/** Told by the algebra too: how far the two are apart is the rounding of sound. */
export const comparedFigures: readonly string[] = ["correlation", "sideShare", "balanceDb"];

const isTaken = ({ id, isRendered }: FigureColumn): boolean => isRendered || comparedFigures.includes(id);

/** What the figures that are taken are read from. */
const parts = measures.filter(({ figures }) => figures.some(isTaken)).flatMap(({ needs }) => needs);

/** A mix of stems as sound, measured as it streams by. */
class SoundingMix {
  readonly #gains: StemGains;
  readonly #sides = [new Float32Array(defaultBlockFrames), new Float32Array(defaultBlockFrames)];
  readonly #sum = new Float64Array(defaultBlockFrames);
  readonly #meter: FactsMeter;

  constructor(gains: StemGains, rateHz: number) {
    this.#gains = gains;
    this.#meter = new FactsMeter(rateHz, parts);
  }

  push(stems: Block, frames: number): void {
    const [left, right] = this.#sides;
    mixInto(left, stems, this.#gains.left, frames, this.#sum);
    mixInto(right, stems, this.#gains.right, frames, this.#sum);
    this.#meter.push(left, right, frames);
  }

  facts(): Known {
    return this.#meter.facts();
  }
}

/** Responses of a track's stems to one impulse, as long as the slowest of them rings. */
function impulseStems(
  { block, rateHz, track }: RenderFiguresJob,
  stems: BlockStems,
  gridRigs: GridRigs,
  onFrames: () => void,
): Float32Array[] {
  const rules = block.structures.map((_, n) =>
    tailRule(gridRigs.turned(stems.settingsOf(n)), Number.POSITIVE_INFINITY),
  );
  const longest = rules.reduce((most, rule) => (rule.silenceSeconds > most.silenceSeconds ? rule : most));
  const blocks: Float32Array[][] = [];
  const frames = render(stems.graphOf(track), {
    take: singleImpulse,
    rateHz,
    tail: impulseTail(longest),
    onFrames,
    sink: (outputs, count) => {
      blocks.push(outputs.map((output) => output.slice(0, count)));
    },
  });
  const whole = (blocks[0] ?? []).map(() => new Float32Array(frames));
  let at = 0;
  for (const parts of blocks) {
    parts.forEach((part, s) => {
      whole[s].set(part, at);
    });
    at += parts[0].length;
  }
  return whole;
}

function sidesOf(response: readonly Float32Array[], { left, right }: StemGains): Float32Array[] {
  const frames = response[0]?.length ?? 0;
  return [left, right].map((gains) => {
    const side = new Float32Array(frames);
    mixInto(side, response, gains, frames, new Float64Array(frames));
    return side;
  });
}

/** Sums in doubles, rounded once, as the engine's own mixes are. */
function mixInto(
  out: Float32Array,
  stems: Block,
  gains: ArrayLike<number>,
  frames: number,
  sum: Float64Array,
): void {
  sum.fill(0, 0, frames);
  for (let s = 0; s < stems.length; s++) {
    const gain = gains[s];
    const stem = stems[s];
    if (gain !== 0) for (let n = 0; n < frames; n++) sum[n] += gain * stem[n];
  }
  for (let n = 0; n < frames; n++) out[n] = sum[n];
}
