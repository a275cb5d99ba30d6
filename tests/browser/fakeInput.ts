import { writeFileSync } from "node:fs";
import { encodeWav } from "../../src/sound/audio/encodeWav.js";

/** The rate at which Chromium's fake device runs; files of another are converted by it, and of 24 bits not read. */
export const fakeRateHz = 44_100;
/** It hands out pieces of 10 ms, and fills the last one of a file with silence before it begins again. */
export const fakePieceFrames = 441;

/** Flags with which a file stands for the microphone, over and over from when it is opened, and the browser asks nobody. */
export const fakeInputFlags = (file: string): readonly string[] => [
  "--use-fake-device-for-media-stream",
  "--use-fake-ui-for-media-stream",
  `--use-file-for-fake-audio-capture=${file}`,
];

/** Writes what the microphone is to hear, in 16 bits. @returns what stands in the file, to the bit */
export function writeFakeInput(file: string, channels: readonly Float32Array[]): readonly Float32Array[] {
  const exact = channels.map((samples) => samples.map((x) => Math.round(x * 32_768) / 32_768));
  const wav = encodeWav({ rateHz: fakeRateHz, channels: exact }, 16);
  writeFileSync(file, wav);
  const words = new Int16Array(wav.slice(44).buffer);
  return channels.map((samples, side) => samples.map((_, n) => words[channels.length * n + side] / 32_768));
}

/** Where in a sound that goes round and round a recording of it begins: the lag of their highest correlation. */
function startIn(sound: Float32Array, recorded: Float32Array): number {
  const probe = recorded.subarray(0, 3000);
  let best = { lag: 0, product: Number.NEGATIVE_INFINITY };
  for (let lag = 0; lag < sound.length; lag++) {
    let product = 0;
    for (let n = 0; n < probe.length; n += 5) product += probe[n] * sound[(lag + n) % sound.length];
    if (product > best.product) best = { lag, product };
  }
  return best.lag;
}

/** The largest difference of a recording to a sound that goes round and round, from where it begins. */
export function largestDifference(sound: Float32Array, recorded: Float32Array): number {
  const start = startIn(sound, recorded);
  return recorded.reduce((most, x, n) => Math.max(most, Math.abs(x - sound[(start + n) % sound.length])), 0);
}
