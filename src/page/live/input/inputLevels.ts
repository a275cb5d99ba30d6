import { gainToDb } from "../../../sound/dsp/units.js";
import type { InputLevel } from "../../contract/soundInput.js";

/** A converter's largest sample of 16 bits, and all above. */
const fullScale = 32_767 / 32_768;
const shownSeconds = 0.1;

interface Channel {
  readonly recent: { frames: number; peak: number }[];
  highest: number;
}

/** Peaks of the channels of an input, held and passing. */
export class InputLevels {
  readonly #shownFrames: number;
  readonly #channels: readonly Channel[];

  constructor(channels: number, rateHz: number) {
    this.#shownFrames = shownSeconds * rateHz;
    this.#channels = Array.from({ length: channels }, () => ({ recent: [], highest: 0 }));
  }

  add(piece: readonly Float32Array[]): void {
    this.#channels.forEach((channel, n) => {
      const samples = piece[n] ?? new Float32Array(0);
      const peak = peakOf(samples);
      const { recent } = channel;
      recent.push({ frames: samples.length, peak });
      let frames = recent.reduce((sum, each) => sum + each.frames, 0);
      while (recent.length > 1 && frames - recent[0].frames >= this.#shownFrames)
        frames -= recent.shift()?.frames ?? 0;
      channel.highest = Math.max(channel.highest, peak);
    });
  }

  get now(): readonly InputLevel[] {
    return this.#channels.map(({ recent, highest }) => ({
      peakDbfs: dbfs(recent.reduce((peak, each) => Math.max(peak, each.peak), 0)),
      highestDbfs: dbfs(highest),
      isClipped: isFullScale(highest),
    }));
  }

  clearMarks(): void {
    for (const channel of this.#channels) channel.highest = 0;
  }
}

export const isFullScale = (peak: number): boolean => peak >= fullScale;

export const dbfs = (peak: number): number | null => (peak > 0 ? gainToDb(peak) : null);

export function peakOf(samples: Float32Array): number {
  let peak = 0;
  for (let n = 0; n < samples.length; n++) peak = Math.max(peak, Math.abs(samples[n]));
  return peak;
}
