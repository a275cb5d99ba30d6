import { dbToGain } from "../src/sound/dsp/units.js";

/** A sine; `phaseDegrees` at frame 0. Level by `peakDbfs` (default 0) of the peak. */
export function sine(options: {
  frequencyHz: number;
  rateHz: number;
  lengthSeconds: number;
  peakDbfs?: number;
  phaseDegrees?: number;
}): Float32Array {
  const { frequencyHz, rateHz, lengthSeconds, peakDbfs = 0, phaseDegrees = 0 } = options;
  const peak = dbToGain(peakDbfs);
  const phase = (phaseDegrees * Math.PI) / 180;
  return Float32Array.from(
    { length: Math.round(lengthSeconds * rateHz) },
    (_, n) => peak * Math.sin((2 * Math.PI * frequencyHz * n) / rateHz + phase),
  );
}

/** Seeded uniform numbers in [0, 1). Source: mulberry32, public domain generator by Tommy Ettinger, from memory. */
export function randomNumbers(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Seeded Gaussian white noise (Box and Muller 1958), of the given RMS. */
export function noise(options: { seed: number; frames: number; rms?: number }): Float32Array {
  const next = randomNumbers(options.seed);
  const rms = options.rms ?? 0.1;
  return Float32Array.from(
    { length: options.frames },
    () => rms * Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
  );
}

/** A single 1 at frame 0, then silence. */
export function impulse(frames: number): Float32Array {
  const out = new Float32Array(frames);
  out[0] = 1;
  return out;
}
