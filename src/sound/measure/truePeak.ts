import { gainToDb } from "../dsp/units.js";
import { type PeakArrays, type PeakRun, peakBlockFrames, peakLoopBytes, peakStates } from "../loops/peaks.js";
import { openRoom, roomBytes } from "../loops/room.js";
import { peakBounds } from "./peakBounds.js";
import { peakInterpolator } from "./peakInterpolator.js";

/** Frames taken in at a time. */
const runFrames = 1024;

/**
 * Largest absolute value of the sound between and on its frames, interpolated to at least 192 kHz.
 *
 * @param channels  samples, full scale 1; before the first and behind the last frame there is silence
 * @returns dBTP; null in silence
 * Source: ITU-R BS.1770-5 (2023), Annex 2. Points of 4 a frame can miss a peak by up to 0.55 dB at 0.45 of the rate
 * (20 log10 cos(pi f / (4 fs))), 0.1 dB at a fifth of it.
 */
export function truePeakDbtp(channels: readonly Float32Array[], rateHz: number): number | null {
  const peaks = channels.map((channel) => {
    const meter = new TruePeakMeter(rateHz);
    meter.push(channel, channel.length);
    return meter.result().truePeak;
  });
  const peak = Math.max(0, ...peaks);
  return peak > 0 ? gainToDb(peak) : null;
}

/**
 * The running form, for one channel. Points that cannot exceed the peak so far are not computed: a bound from the two
 * nearest samples and either the largest sample or the second differences nearby rules most out, the eight middle taps
 * most of the rest. The result is that of computing them all.
 */
export class TruePeakMeter {
  readonly #rateHz: number;
  readonly #arrays: PeakArrays;
  readonly #run: PeakRun;
  /** Frames of the third block that are in. */
  #filled = 0;

  constructor(rateHz: number) {
    const phases = peakInterpolator(rateHz);
    const { middles, ...gains } = peakBounds(phases);
    const ofPhases = flat(phases.map(({ taps }) => taps));
    const ofMiddles = flat(middles.map(({ taps, outerGain }) => [...taps, outerGain]));
    const window = 3 * peakBlockFrames;
    const room = openRoom(
      roomBytes(
        4 * runFrames,
        4 * window,
        8 * peakStates,
        8 * ofPhases.length,
        8 * ofMiddles.length,
        ...peakLoopBytes,
      ),
    );
    this.#rateHz = rateHz;
    this.#arrays = {
      input: room.floats(runFrames),
      window: room.floats(window),
      state: room.doubles(peakStates),
      gains,
      phases: room.doubles(ofPhases.length),
      middles: room.doubles(ofMiddles.length),
    };
    this.#arrays.phases.set(ofPhases);
    this.#arrays.middles.set(ofMiddles);
    this.#run = room.loops.peaks(this.#arrays);
  }

  push(channel: Float32Array, frames: number): void {
    const { input } = this.#arrays;
    for (let from = 0; from < frames; from += input.length) {
      const count = Math.min(input.length, frames - from);
      input.set(channel.subarray(from, from + count));
      this.#filled = this.#run(count, this.#filled);
    }
  }

  /** Factors, 1 is full scale. May be asked for at any time; more sound can be pushed afterwards. */
  result(): { samplePeak: number; truePeak: number } {
    const rest = this.copy();
    rest.push(new Float32Array(3 * peakBlockFrames), 3 * peakBlockFrames);
    const [samplePeak, truePeak] = rest.#arrays.state;
    return { samplePeak, truePeak };
  }

  /** A meter that has seen the same sound. */
  copy(): TruePeakMeter {
    const twin = new TruePeakMeter(this.#rateHz);
    twin.#arrays.window.set(this.#arrays.window);
    twin.#arrays.state.set(this.#arrays.state);
    twin.#filled = this.#filled;
    return twin;
  }
}

const flat = (rows: readonly ArrayLike<number>[]): number[] => rows.flatMap((row) => Array.from(row));
