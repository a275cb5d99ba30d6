import type { InputPiece } from "../input/inputTap.js";

/** What it is to take of an input. */
export interface RecordingPlan {
  readonly rateHz: number;
  /** Of the input, from 0. */
  readonly channels: readonly number[];
  /** From when on, by the clock of the pieces, ms. */
  readonly fromMs: number;
  /** Longest recording that there is memory for. */
  readonly mostFrames: number;
}

/** Collects the chosen channels of an input between two times, to the frame. */
export class RecordedSound {
  readonly #plan: RecordingPlan;
  readonly #pieces: (readonly Float32Array[])[] = [];
  #frames = 0;
  #toMs = Number.POSITIVE_INFINITY;
  /** Where sound was lost, seconds from the start of the recording, and how much. */
  readonly losses: { readonly atSeconds: number; readonly seconds: number }[] = [];
  isFull = false;
  /** The end that was asked for has come in. */
  isComplete = false;

  constructor(plan: RecordingPlan) {
    this.#plan = plan;
  }

  get rateHz(): number {
    return this.#plan.rateHz;
  }
  get frames(): number {
    return this.#frames;
  }
  get seconds(): number {
    return this.#frames / this.#plan.rateHz;
  }

  /** Nothing after this is wanted. */
  endAt(ms: number): void {
    this.#toMs = Math.min(this.#toMs, ms);
  }

  add({ channels, endMs, lostSeconds }: InputPiece): void {
    const { rateHz, fromMs, mostFrames, channels: chosen } = this.#plan;
    const frames = channels[0]?.length ?? 0;
    const startMs = endMs - (1000 * frames) / rateHz;
    const frameAt = (ms: number) =>
      Math.max(0, Math.min(frames, Math.round(((ms - startMs) / 1000) * rateHz)));
    const from = frameAt(fromMs);
    const to = Math.min(frameAt(this.#toMs), from + mostFrames - this.#frames);
    this.isFull ||= this.#frames + frames - from >= mostFrames;
    this.isComplete ||= endMs >= this.#toMs || this.isFull;
    if (to <= from) return;
    if (lostSeconds > 0 && this.#frames > 0)
      this.losses.push({ atSeconds: this.seconds, seconds: lostSeconds });
    this.#pieces.push(chosen.map((n) => (channels[n] ?? new Float32Array(frames)).subarray(from, to)));
    this.#frames += to - from;
  }

  /** All that was collected, one array a channel. */
  channels(): readonly Float32Array[] {
    return this.#plan.channels.map((_, n) => {
      const whole = new Float32Array(this.#frames);
      let at = 0;
      for (const piece of this.#pieces) {
        whole.set(piece[n], at);
        at += piece[n].length;
      }
      return whole;
    });
  }
}
