/** Decibels to a plain factor of amplitude: 10^(dB/20). */
export const dbToGain = (db: number): number => 10 ** (db / 20);

/** A factor of amplitude to decibels: 20 log10(gain); 0 gives -Infinity. */
export const gainToDb = (gain: number): number => 20 * Math.log10(gain);

/** A ratio of energies or powers to decibels: 10 log10(ratio); 0 gives -Infinity. */
export const powerToDb = (ratio: number): number => 10 * Math.log10(ratio);

/** Milliseconds to frames, not rounded. */
export const msToFrames = (ms: number, rateHz: number): number => (ms * rateHz) / 1000;

/** Frames to milliseconds. */
export const framesToMs = (frames: number, rateHz: number): number => (frames * 1000) / rateHz;

/** Seconds to whole frames, rounded to the nearest. */
export const secondsToFrames = (seconds: number, rateHz: number): number => Math.round(seconds * rateHz);
