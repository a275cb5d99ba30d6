import { secondsToFrames } from "../../../sound/dsp/units.js";
import { FactsMeter } from "../../../sound/measure/factsMeter.js";
import { integratedLufsMeasure } from "../../../sound/measure/loudnessMeasures.js";
import type { LevelReading } from "../../../sound/measure/match.js";
import { truePeakMeasure } from "../../../sound/measure/peakMeasures.js";
import { compileWithMixers } from "../../../work/render/compile.js";
import { render } from "../../../work/render/render.js";
import type { SoundJob, SoundResult } from "./engineJobs.js";
import { openMixerOf } from "./openMixer.js";

/** Renders wirings to be heard, and learns their levels, so that they can be matched before they sound. */
export function renderSound(job: SoundJob, onFrames: (frames: number) => void): SoundResult {
  const { wirings, take, rateHz, clips, tail, leastFrames, levels } = job;
  const mixers = wirings.map(({ wiring }) => openMixerOf(wiring));
  const open = mixers.flatMap((mixer, wiring) => (mixer ? [{ wiring, mixer: mixer.id }] : []));
  const graph = compileWithMixers(
    wirings.map(({ wiring }) => wiring),
    open,
    { rateHz, clips },
  );
  const likely = Math.max(leastFrames, take.length + secondsToFrames(likelyTailSeconds, rateHz));
  const tapes = graph.outputs.map(() => new Tape(likely));
  const metered = wirings.flatMap(({ id }, wiring) =>
    levels.has(id) ? [] : [{ id, wiring, meter: new FactsMeter(rateHz, ["loudness", "peaks"]) }],
  );
  let needs: readonly number[] = [];
  const frames = render(graph, {
    take,
    rateHz,
    tail,
    watched: 2 * wirings.length,
    agree: (needed) => Math.max(needed, leastFrames),
    onNeeds: (needed) => {
      needs = needed;
    },
    onFrames,
    sink: (outputs, count) => {
      for (let n = 0; n < tapes.length; n++) tapes[n].write(outputs[n], count);
      for (const { wiring, meter } of metered)
        meter.push(outputs[2 * wiring], outputs[2 * wiring + 1], count);
    },
  });
  const levelById = new Map([...levels, ...metered.map(({ id, meter }) => [id, levelOf(meter)] as const)]);
  let at = 2 * wirings.length;
  const tracks = wirings.map(({ id }, n) => {
    const [left, right] = [tapes[2 * n].samples(), tapes[2 * n + 1].samples()];
    const inputs = Array.from({ length: mixers[n]?.inputs.length ?? 0 }, () => tapes[at++].samples());
    const isMono = graph.outputs[2 * n] === graph.outputs[2 * n + 1];
    const channels = inputs.length > 0 ? inputs : isMono ? [left] : [left, right];
    return {
      id,
      channels,
      neededFrames: Math.max(needs[2 * n], needs[2 * n + 1]),
      level: levelById.get(id)!,
    };
  });
  return { frames, tracks };
}

const likelyTailSeconds = 3;

/** One channel as it grows. */
class Tape {
  #samples: Float32Array;
  #frames = 0;
  constructor(likelyFrames: number) {
    this.#samples = new Float32Array(likelyFrames);
  }
  write(block: Float32Array, frames: number): void {
    if (this.#frames + frames > this.#samples.length) {
      const longer = new Float32Array(Math.ceil(1.25 * (this.#frames + frames)));
      longer.set(this.#samples);
      this.#samples = longer;
    }
    this.#samples.set(block.subarray(0, frames), this.#frames);
    this.#frames += frames;
  }
  /** What was written, in memory of its own. */
  samples(): Float32Array {
    return this.#samples.slice(0, this.#frames);
  }
}

/** What matching must know of a render; the same figures as those of the full meter. */
function levelOf(meter: FactsMeter): LevelReading {
  const facts = meter.facts();
  return {
    integratedLufs: integratedLufsMeasure.find(facts).value,
    truePeakDbtp: truePeakMeasure.find(facts).value,
  };
}
