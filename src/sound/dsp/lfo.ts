import { openRoom, type Room, roomBytes } from "../loops/room.js";

/** Frames between two exact settings of the oscillator; its values are made in runs of this length. */
export const lfoRunFrames = 128;

/** What an oscillator takes in a room. */
export const lfoBytes = roomBytes(8 * lfoRunFrames);

export const lfoWaves = ["sine", "triangle"] as const;
export type LfoWave = (typeof lfoWaves)[number];

/**
 * A low-frequency oscillator from -1 to 1: sin(2 pi lfoHz t + phase), or the triangle that crosses zero and peaks where
 * that sine does. It makes its values in runs of 128 frames counted from frame 0, so they do not depend on block sizes:
 *
 *     for (let done = 0; done < frames; done += run) {
 *       run = lfo.ready(frames - done);        // values[at] .. values[at + run - 1] are the next ones
 *       ...
 *       lfo.at += run;
 *     }
 *
 * Each run starts from the true phase of its first frame, so no error gathers. Inside a run the sine follows
 * sin(a + w) = 2 cos(w) sin(a) - sin(a - w) in double precision, to within 1e-11. After 8 values w is four frames: four
 * chains that do not wait for each other run twice as fast as one.
 * Source: the recurrence is the angle-sum identity.
 */
export class Lfo {
  readonly values: Float64Array;
  /** Place of the next value; whoever uses values moves it on. */
  at = lfoRunFrames;
  readonly #cyclesPerFrame: number;
  readonly #startCycles: number;
  readonly #wave: LfoWave;
  readonly #recur: (twice: number) => void;
  #frame = 0;

  /** @param phaseDegrees phase at frame 0, @param room  where its values are, if loops are to see them */
  constructor(
    lfoHz: number,
    rateHz: number,
    phaseDegrees: number,
    wave: LfoWave = "sine",
    room: Room = openRoom(lfoBytes),
  ) {
    this.values = room.doubles(lfoRunFrames);
    this.#recur = room.loops.recur(this.values);
    this.#cyclesPerFrame = lfoHz / rateHz;
    this.#startCycles = phaseDegrees / 360;
    this.#wave = wave;
  }

  /** How many values stand ready from `values[at]` on: at least 1, at most `frames`. @param frames at least 1 */
  ready(frames: number): number {
    if (this.at === lfoRunFrames) {
      this.#run();
      this.at = 0;
    }
    return Math.min(frames, lfoRunFrames - this.at);
  }

  #run(): void {
    const cycles = this.#frame * this.#cyclesPerFrame + this.#startCycles;
    const start = cycles - Math.floor(cycles);
    if (this.#wave === "sine") this.#sine(start);
    else this.#triangle(start);
    this.#frame += lfoRunFrames;
  }

  #sine(start: number): void {
    const values = this.values;
    const step = 2 * Math.PI * this.#cyclesPerFrame;
    let before = Math.sin(2 * Math.PI * start - step);
    let now = Math.sin(2 * Math.PI * start);
    for (let n = 0; n < 8; n++) {
      values[n] = now;
      const next = 2 * Math.cos(step) * now - before;
      before = now;
      now = next;
    }
    this.#recur(2 * Math.cos(4 * step));
  }

  #triangle(start: number): void {
    const values = this.values;
    const step = this.#cyclesPerFrame;
    for (let n = 0; n < lfoRunFrames; n++) {
      const quarterOn = start + n * step + 0.25;
      values[n] = 1 - 4 * Math.abs(quarterOn - Math.floor(quarterOn) - 0.5);
    }
  }
}
