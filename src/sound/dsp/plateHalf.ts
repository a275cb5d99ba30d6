import { cubicBetween } from "./cubic.js";
import { DelayLine } from "./delayLine.js";
import type { Lfo } from "./lfo.js";
import type { PlacedTap, PlateHalfDesign } from "./plateDesign.js";
import { silent } from "./silent.js";

/**
 * Half of the plate's figure of eight: a swinging all-pass, a delay, damping, an all-pass, a delay.
 * One call takes no more frames than the shortest of the delays and of the LFO's runs.
 */
export class PlateHalf {
  readonly #design: PlateHalfDesign;
  readonly #excursionFrames: number;
  readonly #lfo: Lfo;
  readonly #swinging: DelayLine;
  readonly #lines: Readonly<Record<PlacedTap["line"], DelayLine>>;
  #damped = 0;
  #frame = 0;

  /** @param excursionFrames swing of the first all-pass either way, by `lfo` */
  constructor(design: PlateHalfDesign, excursionFrames: number, lfo: Lfo, mostFrames: number) {
    this.#design = design;
    this.#excursionFrames = excursionFrames;
    this.#lfo = lfo;
    this.#swinging = new DelayLine(design.swinging.frames + excursionFrames + 2);
    this.#lines = {
      first: new DelayLine(design.first.frames + mostFrames),
      second: new DelayLine(design.second.frames + mostFrames),
      last: new DelayLine(design.last.frames + mostFrames),
    };
  }

  /** Adds what comes out of this half in the next `frames` frames to `signal`. */
  addEnd(signal: Float64Array, frames: number): void {
    const { ring, mask } = this.#lines.last;
    const { gain, frames: delayFrames } = this.#design.last;
    const from = this.#frame - delayFrames;
    for (let n = 0; n < frames; n++) signal[n] += gain * ring[(from + n) & mask];
  }

  process(signal: Float64Array, frames: number): void {
    const { ring: swinging, mask: swingingMask } = this.#swinging;
    const { ring: first, mask: firstMask } = this.#lines.first;
    const { ring: second, mask: secondMask } = this.#lines.second;
    const { ring: last, mask: lastMask } = this.#lines.last;
    const design = this.#design;
    const { diffusion1: g1, diffusion2: g2, pole } = design;
    const { frames: swingingFrames, gain: swingingGain } = design.swinging;
    const { frames: secondFrames, gain: secondGain } = design.second;
    const firstFrames = design.first.frames;
    const firstGain = design.first.gain * (1 - pole);
    const excursion = this.#excursionFrames;
    const { values, at } = this.#lfo;
    const start = this.#frame;
    let damped = this.#damped;
    for (let n = 0; n < frames; n++) {
      const now = start + n;
      const delay = swingingFrames + excursion * values[at + n];
      const whole = Math.floor(delay);
      const near = now - whole;
      let delayed =
        swingingGain *
        cubicBetween(
          swinging[(near + 1) & swingingMask],
          swinging[near & swingingMask],
          swinging[(near - 1) & swingingMask],
          swinging[(near - 2) & swingingMask],
          delay - whole,
        );
      let v = signal[n] + g1 * delayed;
      if (Math.abs(v) < silent) v = 0;
      swinging[now & swingingMask] = v;
      first[now & firstMask] = delayed - g1 * v;

      damped = firstGain * first[(now - firstFrames) & firstMask] + pole * damped;
      if (Math.abs(damped) < silent) damped = 0;

      delayed = secondGain * second[(now - secondFrames) & secondMask];
      v = damped - g2 * delayed;
      if (Math.abs(v) < silent) v = 0;
      second[now & secondMask] = v;
      last[now & lastMask] = delayed + g2 * v;
    }
    this.#damped = damped;
    this.#frame = (start + frames) | 0;
  }

  /** Adds one tap's sound of the `count` frames taken last to `output`. */
  addTap({ line, frames, gain }: PlacedTap, output: Float64Array, count: number): void {
    const { ring, mask } = this.#lines[line];
    const from = this.#frame - count - frames;
    for (let n = 0; n < count; n++) output[n] += gain * ring[(from + n) & mask];
  }
}
